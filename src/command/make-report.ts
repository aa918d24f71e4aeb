import { createHash } from "node:crypto";
import { mkdir, writeFile } from "node:fs/promises";
import { basename, join } from "node:path";
import { dayFromParts } from "../cases/calendar-day.ts";
import type { CaseFile } from "../cases/open-file.ts";
import { readCases } from "../cases/read-cases.ts";
import { prepareFile } from "../cases/workbook/prepare-file.ts";
import { formatProblem } from "../problem/format-problem.ts";
import type { Problem } from "../problem/problem.ts";
import type { Answered } from "../questions/answer.ts";
import { counted } from "../questions/answering/wording.ts";
import { vocabulary } from "../questions/vocabulary.ts";
import { NotebookSession } from "../recalculation/notebook-session.ts";
import { problemsCsv } from "../report/file-problems.ts";
import { minuteText } from "../report/minutes.ts";
import type { ReportedCell, ReportInput } from "../report/report-input.ts";
import { reportOfSession } from "../report/report-of-session.ts";
import { reportPage } from "../report/report-page.ts";
import { resultsJson } from "../report/results-json.ts";
import { tableCsv } from "../report/table-csv.ts";
import type { Exit, Surroundings } from "./exit.ts";
import { readGiven } from "./read-given.ts";

export interface ReportAsked {
  readonly notebook: string;
  readonly cases: string;
  readonly into: string;
  readonly dated?: string;
  /** Of a workbook; absent: the one with the most known headings. */
  readonly sheet?: string;
  readonly quiet: boolean;
}

/** Reads, works out and writes; says what was written and what is wrong. */
export async function makeReport(
  asked: ReportAsked,
  speaker: Surroundings & { readonly version: string },
): Promise<Exit> {
  const progress = progressOn(speaker, asked.quiet);
  progress("reading");
  const notebook = await readGiven(asked.notebook, speaker);
  const cases = await readGiven(asked.cases, speaker);
  if (notebook === undefined || cases === undefined) return 2;
  const today = asked.dated === undefined ? speaker.today : (dayOf(asked.dated) ?? speaker.today);
  const session = new NotebookSession<never>({
    vocabulary,
    readCases: (file, matching) => readCases(file, { matching, today }),
    withSetting: (working) => working,
  });
  const prepared = await prepareFile({
    name: basename(asked.cases),
    bytes: new Uint8Array(cases),
    ...(asked.sheet === undefined ? {} : { sheet: asked.sheet }),
  });
  const opened = open(session, asked, { notebook, cases: prepared });
  if (!opened.done) {
    speaker.warn(opened.problems.map((problem) => `${formatProblem(problem)}\n`).join(""));
    return 2;
  }
  progress("working out");
  await session.sheet.settled();
  const input = reportOfSession(session, {
    version: speaker.version,
    sha256: createHash("sha256").update(cases).digest("hex"),
    ...(asked.dated === undefined ? {} : { dated: asked.dated }),
  });
  session.dispose();
  progress("writing");
  const written = await writeAll(asked.into, input);
  progress("");
  return closing({ asked, speaker, input, written });
}

/** "2026-03-31" as a day; the command line has seen that it looks like one. */
function dayOf(dated: string): number | null {
  const [year = 0, month = 0, day = 0] = dated.split("-").map(Number);
  return dayFromParts(year, month, day);
}

/** One line, written over; only to a person who is waiting. */
function progressOn(speaker: Surroundings, quiet: boolean): (what: string) => void {
  if (quiet || !speaker.isTerminal) return () => {};
  return (what) => speaker.warn(`\r\u001b[K${what === "" ? "" : `${what} …`}`);
}

interface Opened {
  readonly done: boolean;
  readonly problems: readonly Problem[];
}

function open(
  session: NotebookSession<never>,
  asked: ReportAsked,
  files: { readonly notebook: Buffer; readonly cases: CaseFile },
): Opened {
  const notebook = session.openNotebook(basename(asked.notebook), files.notebook.toString("utf8"));
  if (notebook.some((problem) => problem.severity === "stop"))
    return { done: false, problems: notebook };
  const cases = session.openFile(files.cases);
  const problems = [...notebook, ...cases];
  return { done: session.caseReading !== undefined, problems };
}

/** Writes the report, a table for each answer, and the results; gives the names of the files. */
async function writeAll(into: string, input: ReportInput): Promise<string[]> {
  const files: [name: string, text: string][] = [
    ["report.html", await reportPage(input)],
    ...input.cells.flatMap(tableFile),
    ["problems.csv", problemsCsv(input.cases.problems)],
    ["results.json", resultsJson(input)],
  ];
  await mkdir(into, { recursive: true });
  for (const [name, text] of files) await writeFile(join(into, name), text);
  return files.map(([name]) => name);
}

/** A name of a cell is letters, digits and underscores, so it is a name for a file as well. */
function tableFile({ name, state }: ReportedCell): [string, string][] {
  if (state.status !== "current") return [];
  const { value } = state;
  if (value.kind !== "thing" || value.of !== "answer") return [];
  return [[`${name}.csv`, tableCsv((value.content as Answered).answer.table)]];
}

function closing(done: {
  readonly asked: ReportAsked;
  readonly speaker: Surroundings;
  readonly input: ReportInput;
  readonly written: readonly string[];
}): Exit {
  const { asked, speaker, input, written } = done;
  const unanswered = input.cells.filter(({ state }) => state.status !== "current");
  for (const { name, state } of unanswered) speaker.warn(`${name}: ${whyNot(state)}\n`);
  for (const { name, minuted } of input.cells) {
    const moved = minuted.filter(({ check }) => check.verdict !== "holds");
    for (const minute of moved) speaker.warn(`${name}: ${minuteText(minute)}\n`);
  }
  if (!asked.quiet) {
    const { rowsRead, rowsKept, rowsLeftOut } = input.cases;
    speaker.say(
      `${counted(rowsRead, "row")} read, ${rowsKept} kept, ${rowsLeftOut} left out, ` +
        `${counted(input.cases.queries, "query", "queries")}\n` +
        `written to ${asked.into}: ${written.join(", ")}\n`,
    );
  }
  return unanswered.length === 0 ? 0 : 1;
}

function whyNot(state: ReportedCell["state"]): string {
  if (state.status === "at fault") return state.problems.map(formatProblem).join("\n");
  return state.status === "waiting"
    ? `waits for ${state.waitsFor.join(", ")}`
    : "was not worked out";
}
