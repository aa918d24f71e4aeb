import { basename } from "node:path";
import type { CaseReading } from "../cases/case-reading.ts";
import type { Matching } from "../cases/matching.ts";
import { readCases } from "../cases/read-cases.ts";
import { rowCount } from "../cases/table.ts";
import { prepareFile } from "../cases/workbook/prepare-file.ts";
import { readNotebook } from "../notebook/read-notebook.ts";
import { formatProblem } from "../problem/format-problem.ts";
import type { Problem } from "../problem/problem.ts";
import { counted } from "../questions/answering/wording.ts";
import type { Exit, Surroundings } from "./exit.ts";
import { bytesGiven, readGiven } from "./read-given.ts";

export interface CheckAsked {
  readonly cases: string;
  readonly notebook?: string;
  /** Of a workbook; absent: the one with the most known headings. */
  readonly sheet?: string;
  readonly json: boolean;
  readonly quiet: boolean;
}

/** Reads a file of cases alone and says all that is wrong with it. */
export async function checkCases(asked: CheckAsked, speaker: Surroundings): Promise<Exit> {
  const bytes = await bytesGiven(asked.cases);
  if (!Buffer.isBuffer(bytes)) return unreadable(bytes, asked, speaker);
  const matching = await matchingAsked(asked.notebook, speaker);
  if (matching === "unreadable") return 2;
  const file = await prepareFile({
    name: basename(asked.cases),
    bytes: new Uint8Array(bytes),
    ...(asked.sheet === undefined ? {} : { sheet: asked.sheet }),
  });
  const reading = readCases(file, {
    today: speaker.today,
    ...(matching === undefined ? {} : { matching }),
  });
  if (!asked.quiet) speaker.say(asked.json ? asJson(reading) : asText(reading));
  if (reading.cases.columns.length === 0) return 2;
  const wrong = reading.problems.some(({ severity }) => severity !== "note");
  return wrong || reading.leftOut.length > 0 || isUnknown(reading) ? 1 : 0;
}

/** In JSON as everything else is said in JSON, so that a program that reads it finds out why. */
function unreadable(problem: Problem, asked: CheckAsked, speaker: Surroundings): Exit {
  const { cases, json, quiet } = asked;
  speaker.warn(`${formatProblem(problem)}\n`);
  const none = { rows_read: 0, rows_kept: 0, rows_left_out: 0, queries: 0 };
  const name = basename(cases);
  const told = { file: { name }, ...none, headings: [], left_out: [], problems: [problem] };
  if (json && !quiet) speaker.say(`${JSON.stringify(told, null, 2)}\n`);
  return 2;
}

async function matchingAsked(
  notebook: string | undefined,
  speaker: Surroundings,
): Promise<Matching | undefined | "unreadable"> {
  if (notebook === undefined) return undefined;
  const bytes = await readGiven(notebook, speaker);
  if (bytes === undefined) return "unreadable";
  const { notebook: read, problems } = readNotebook(bytes.toString("utf8"), basename(notebook));
  const stops = problems.filter(({ severity }) => severity === "stop");
  if (stops.length === 0) return read.front.matching;
  speaker.warn(stops.map((problem) => `${formatProblem(problem)}\n`).join(""));
  return "unreadable";
}

/** Not one heading stands for anything that a question asks of. */
function isUnknown({ columns }: CaseReading): boolean {
  return columns.every(({ field, by }) => field === undefined && by !== "notebook");
}

/** The headings that no field was found for; nothing where each has one or was dropped. */
function headingsText(reading: CaseReading): string {
  const own = reading.columns.filter(({ by }) => by === "unmatched").map(({ heading }) => heading);
  if (own.length === 0) return "";
  const none = isUnknown(reading) ? "no heading of this file is known: " : "";
  return `${none}not matched, kept as columns of their own: ${own.join(", ")} (holdfast fields says what is known)\n\n`;
}

function counts(reading: CaseReading) {
  return {
    rows_read: reading.rowsRead,
    rows_kept: rowCount(reading.cases),
    rows_left_out: reading.leftOut.length,
    queries: reading.problems.filter(({ severity }) => severity === "query").length,
  };
}

function asText(reading: CaseReading): string {
  const { rows_read, rows_kept, rows_left_out, queries } = counts(reading);
  const problems = reading.problems.map((problem) => `${formatProblem(problem)}\n\n`).join("");
  return `${problems}${headingsText(reading)}${counted(rows_read, "row")} read, ${rows_kept} kept, ${rows_left_out} left out, ${counted(queries, "query", "queries")}\n`;
}

function asJson(reading: CaseReading): string {
  const { file, problems, leftOut, columns } = reading;
  const headings = columns.map(({ heading, field = null, by }) => ({ heading, field, by }));
  const told = { file, ...counts(reading), headings, left_out: leftOut, problems };
  return `${JSON.stringify(told, null, 2)}\n`;
}
