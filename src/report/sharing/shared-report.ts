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
import { withoutIdLikes, withoutIds } from "./without-ids.ts";

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
  const idsOut = withoutIds(input.cases.ids ?? []);
  const words = (text: string): string => coarseDates(people.inText(idsOut(text)));
  const prose = (text: string): string => words(withoutIdLikes(text));
  const line = (text: string): string => (tellsCountsInProse(text) ? "withheld" : prose(text));
  const answers = input.cells.flatMap((cell) => answersToShare(input, cell));
  const patientOf = patientsOf(input);
  const open = openCounts(countsOfReport(answers), threshold, { patientOf });
  const byName = new Map(answers.map((answer) => [answer.name, answer]));
  const names = sharedNames(input.cells, people);
  return {
    version: input.version,
    title: tellsCountsInProse(input.title) ? untitled : prose(input.title),
    ...(input.period === undefined ? {} : { period: line(input.period) }),
    ...(input.department === undefined ? {} : { department: line(input.department) }),
    ...(input.madeBy === undefined ? {} : { madeBy: line(input.madeBy) }),
    ...(input.dated === undefined ? {} : { dated: input.dated }),
    sharing: { threshold },
    cases: withoutCases(input),
    definitions: input.definitions.map((definition) => ({
      ...definition,
      cells: definition.cells.map((name) => names.get(name) ?? name),
    })),
    actions: input.actions.map((due) => sharedAction(due, { line, names })),
    blocks: input.blocks.map((block) => sharedBlock(block, { prose, names })),
    cells: input.cells.map((cell) => {
      const name = names.get(cell.name) ?? cell.name;
      const answer = byName.get(cell.name);
      if (answer === undefined) return withoutAnswer({ ...cell, name }, prose);
      const given = { answer, open, threshold, patientOf, people, words, prose };
      return sharedCell({ ...cell, name }, given);
    }),
  };
}

/** In place of a title that tells counts. */
const untitled = "Audit of retinal detachment repair";

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
  const { textColumns } = input.cases;
  const isTelling = (working: string) => readsText(working, textColumns) || namesPeople(working);
  if (isMadeWith(isTelling, input, cell)) return [];
  const told = answerToShare(cell.name, answered, input.cases.rowsOnLines);
  return told === undefined ? [] : [told];
}

function answeredOf({ state }: ReportedCell): Answered | undefined {
  if (state.status !== "current") return undefined;
  const { value } = state;
  return value.kind === "thing" && value.of === "answer" ? (value.content as Answered) : undefined;
}

/** Whether something holds of a working, or of one that it is made from. */
function isMadeWith(
  holds: (working: string) => boolean,
  { cells }: Pick<ReportInput, "cells">,
  { name, working }: ReportedCell,
): boolean {
  if (holds(working)) return true;
  const named = namesIn(working);
  // A cell on a ring of workings has no answer; left out of what is looked through, it ends the ring.
  const others = cells.filter((other) => other.name !== name);
  return others.some(
    (other) => named.has(other.name) && isMadeWith(holds, { cells: others }, other),
  );
}

function namesIn(working: string): ReadonlySet<string> {
  return new Set(working.match(/[\p{L}_][\p{L}\p{N}_]*/gu) ?? []);
}

function readsText(working: string, textColumns: readonly string[]): boolean {
  const named = namesIn(working);
  return textColumns.some((name) => named.has(name));
}

/** Whether it gives people names of its own, as in `if surgeon = "E" then "…"`. */
function namesPeople(working: string): boolean {
  const named = namesIn(working);
  return (named.has("surgeon") || named.has("supervisor")) && /\bthen\s*"/.test(working);
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

type SharedNames = ReadonlyMap<string, string>;

/** The verdict is left to its answer, which may not be shown. */
function sharedAction(
  due: ActionDue,
  { line, names }: { line(text: string): string; readonly names: SharedNames },
): ActionDue {
  return {
    cell: names.get(due.cell) ?? due.cell,
    action: line(due.action),
    role: line(due.role),
    reAudit: line(due.reAudit),
  };
}

function sharedBlock(
  block: ReportBlock,
  { prose, names }: { prose(text: string): string; readonly names: SharedNames },
): ReportBlock {
  if (block.type === "row")
    return { ...block, cells: block.cells.map((name) => names.get(name) ?? name) };
  if (block.type === "code") return { type: "prose", text: "(A passage in code is withheld.)" };
  const text = tellsCountsInProse(block.text)
    ? "(A passage that tells counts is withheld.)"
    : prose(block.text);
  return { ...block, text };
}

function withoutAnswer(cell: ReportedCell, prose: (text: string) => string): ReportedCell {
  const { name, state, setting } = cell;
  const isAnswer = answeredOf(cell) !== undefined;
  return {
    name,
    working: "",
    minuted: [],
    state: state.status === "current" ? hidden : { status: "recalculating" },
    ...(setting === undefined ? {} : { setting: prose(setting) }),
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
    prose(text: string): string;
  },
): ReportedCell {
  const {
    answer: { answered, natures, rowsOf, name: key },
    open,
    threshold,
    patientOf,
    people,
    words,
    prose,
  } = given;
  const { answer, withheld } = sharedAnswer({
    name: key,
    answer: answered.answer,
    ...{ natures, rowsOf, open, threshold, patientOf },
    label: (text, heading) => {
      if (heading === "") return prose(text);
      return words(/\b(surgeon|supervisor)\b/.test(heading) ? people.asLabel(text) : text);
    },
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
    ...(setting === undefined ? {} : { setting: prose(setting) }),
  };
}
