import type { Answered } from "../../questions/answer.ts";
import type { ActionDue } from "../actions-due.ts";
import type { CountedSet } from "../disclosure/counted-set.ts";
import { openCounts } from "../disclosure/open-counts.ts";
import type { ReportBlock, ReportedCell, ReportInput } from "../report-input.ts";
import { type AnswerToShare, answerToShare } from "./answer-to-share.ts";
import { coarseDates } from "./coarse-dates.ts";
import { countsOfReport } from "./counts-of-report.ts";
import { sharingOf } from "./question-sharing.ts";
import { type RecodedPeople, recodedPeople } from "./recoded-people.ts";
import { sharedAnswer } from "./shared-answer.ts";
import { tellsCountsInProse } from "./tells-counts.ts";

export interface SharingAsked {
  /** The smallest count that is shown, in eyes and in the patients they belong to; 2 or more. */
  readonly threshold: number;
  /** For the order of people; not to be known to who reads the shared report. */
  readonly seed: number;
}

/**
 * The report as it may leave the department: no small count and none that could be worked out from
 * others, people's codes written anew, days as quarters; no line, case, digest or name of the file,
 * no problems found in it, no workings, no minuted lines, no answer that lists single eyes or is
 * grouped by a column of free text.
 */
export function sharedReport(input: ReportInput, { threshold, seed }: SharingAsked): ReportInput {
  const people = recodedPeople(input.cases.people, seed);
  const words = (text: string): string => coarseDates(people.inText(text));
  const answers = input.cells.flatMap((cell) => answersToShare(input, cell));
  const patientOf = patientsOf(input);
  const open = openCounts(countsOfReport(answers), threshold, { patientOf });
  const byName = new Map(answers.map((answer) => [answer.name, answer]));
  const names = sharedNames(input.cells, people);
  return {
    version: input.version,
    title: words(input.title),
    ...(input.period === undefined ? {} : { period: words(input.period) }),
    ...(input.department === undefined ? {} : { department: words(input.department) }),
    ...(input.madeBy === undefined ? {} : { madeBy: words(input.madeBy) }),
    ...(input.dated === undefined ? {} : { dated: input.dated }),
    sharing: { threshold },
    cases: withoutCases(input),
    definitions: input.definitions.map((definition) => ({
      ...definition,
      cells: definition.cells.map((name) => names.get(name) ?? name),
    })),
    actions: input.actions.map((due) => sharedAction(due, { words, names })),
    blocks: input.blocks.map((block) => sharedBlock(block, { words, names })),
    cells: input.cells.map((cell) => {
      const name = names.get(cell.name) ?? cell.name;
      const answer = byName.get(cell.name);
      if (answer === undefined) return withoutAnswer({ ...cell, name }, words);
      return sharedCell({ ...cell, name }, { answer, open, threshold, patientOf, people, words });
    }),
  };
}

/** What the shared report shows: all that it counts, and the keys of what of it may be seen. */
export function shownBySharedReport(
  input: ReportInput,
  threshold: number,
): { readonly counted: readonly CountedSet[]; readonly open: ReadonlySet<string> } {
  const counted = countsOfReport(input.cells.flatMap((cell) => answersToShare(input, cell)));
  return { counted, open: openCounts(counted, threshold, { patientOf: patientsOf(input) }) };
}

function patientsOf({ cases }: ReportInput): ReadonlyMap<number, string> {
  return cases.patientOf ?? new Map();
}

function answersToShare(input: ReportInput, cell: ReportedCell): AnswerToShare[] {
  const answered = answeredOf(cell);
  if (answered === undefined || sharingOf(answered.answer.question) === "none") return [];
  if (mentionsText(input, cell, new Set())) return [];
  const told = answerToShare(cell.name, answered, input.cases.rowsOnLines);
  return told === undefined ? [] : [told];
}

function answeredOf({ state }: ReportedCell): Answered | undefined {
  if (state.status !== "current") return undefined;
  const { value } = state;
  return value.kind === "thing" && value.of === "answer" ? (value.content as Answered) : undefined;
}

/** Whether a working, or one that it is made from, reads a column of free text. */
function mentionsText(input: ReportInput, cell: ReportedCell, seen: Set<string>): boolean {
  if (seen.has(cell.name)) return false;
  seen.add(cell.name);
  const named = new Set(cell.working.match(/[\p{L}_][\p{L}\p{N}_]*/gu) ?? []);
  if (input.cases.textColumns.some((name) => named.has(name))) return true;
  return input.cells.some((other) => named.has(other.name) && mentionsText(input, other, seen));
}

/** The names of cells; one that holds a person's code is only numbered. */
function sharedNames(cells: readonly ReportedCell[], people: RecodedPeople): Map<string, string> {
  return new Map(
    cells.map(({ name }, at) => [name, people.isNamedIn(name) ? `cell_${at + 1}` : name]),
  );
}

function withoutCases({ cases }: ReportInput): ReportInput["cases"] {
  return {
    file: { ...cases.file, name: "" },
    sha256: "",
    laid: [],
    ...{ rowsRead: 0, rowsKept: 0, rowsLeftOut: 0, queries: 0 },
    ...{ fields: [], problems: [], people: [], textColumns: [] },
  };
}

interface SharedWords {
  words(text: string): string;
  readonly names: ReadonlyMap<string, string>;
}

/** The verdict is left to its answer, which may not be shown. */
function sharedAction(due: ActionDue, { words, names }: SharedWords): ActionDue {
  return {
    cell: names.get(due.cell) ?? due.cell,
    action: tellsCountsInProse(due.action) ? "withheld" : words(due.action),
    role: words(due.role),
    reAudit: words(due.reAudit),
  };
}

function sharedBlock(block: ReportBlock, { words, names }: SharedWords): ReportBlock {
  if (block.type === "row")
    return { ...block, cells: block.cells.map((name) => names.get(name) ?? name) };
  if (block.type === "code") return { type: "prose", text: "(A passage in code is withheld.)" };
  const text = tellsCountsInProse(block.text)
    ? "(A passage that tells counts is withheld.)"
    : words(block.text);
  return { ...block, text };
}

function withoutAnswer(cell: ReportedCell, words: (text: string) => string): ReportedCell {
  const { name, state, setting } = cell;
  const isAnswer = answeredOf(cell) !== undefined;
  return {
    name,
    working: "",
    minuted: [],
    state: state.status === "current" ? hidden : { status: "recalculating" },
    ...(setting === undefined ? {} : { setting: words(setting) }),
    ...(isAnswer
      ? {
          withheld: [
            "This answer is not part of a shared report: it lists or follows single eyes or one person, reads a column of free text, or counts rows of several files that cannot be told apart.",
          ],
        }
      : {}),
    ...(state.status === "current"
      ? {}
      : { withheld: ["This cell has no answer; why stands in the department's own report."] }),
  };
}

const hidden: ReportedCell["state"] = { status: "current", value: { kind: "missing" } };

function sharedCell(
  { name, setting }: ReportedCell,
  given: {
    readonly answer: AnswerToShare;
    readonly open: ReadonlySet<string>;
    readonly threshold: number;
    readonly patientOf: ReadonlyMap<number, string>;
    readonly people: RecodedPeople;
    words(text: string): string;
  },
): ReportedCell {
  const {
    answer: { answered, natures, rowsOf, name: key },
    open,
    threshold,
    patientOf,
    people,
    words,
  } = given;
  const { answer, withheld } = sharedAnswer({
    name: key,
    answer: answered.answer,
    ...{ natures, rowsOf, open, threshold, patientOf },
    label: (text, heading) =>
      /\b(surgeon|supervisor)\b/.test(heading) ? words(people.asLabel(text)) : words(text),
  });
  const content: Answered = {
    answer,
    picks: new Map(),
    record: { describe: () => ({ headings: [], rows: [] }) },
  };
  return {
    name,
    working: "",
    minuted: [],
    state: { status: "current", value: { kind: "thing", of: "answer", parts: new Map(), content } },
    withheld,
    ...(setting === undefined ? {} : { setting: words(setting) }),
  };
}
