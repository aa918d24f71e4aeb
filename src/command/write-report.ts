import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { Answered } from "../questions/answer.ts";
import { problemsCsv } from "../report/file-problems.ts";
import type { ReportedCell, ReportInput } from "../report/report-input.ts";
import { reportPage } from "../report/report-page.ts";
import { resultsJson } from "../report/results-json.ts";
import { sharedReport } from "../report/sharing/shared-report.ts";
import { sharedResultsJson } from "../report/sharing/shared-results.ts";
import { tableCsv } from "../report/table-csv.ts";

export interface WrittenReport {
  readonly page: string;
  /** The names of the files. */
  readonly files: readonly string[];
}

/** Writes the report, a table for each answer, and the results. */
export async function writeReport(into: string, input: ReportInput): Promise<WrittenReport> {
  const page = await reportPage(input);
  const files: [name: string, text: string][] = [
    ["report.html", page],
    ...input.cells.flatMap(tableFile),
    ["results.json", input.sharing === undefined ? resultsJson(input) : sharedResultsJson(input)],
  ];
  if (input.sharing === undefined) {
    files.push(["problems.csv", problemsCsv(input.cases.problems)]);
  }
  await mkdir(into, { recursive: true });
  for (const [name, text] of files) await writeFile(join(into, name), text);
  return { page, files: files.map(([name]) => name) };
}

/** A name of a cell is letters, digits and underscores, so it is a name for a file as well. */
function tableFile({ name, state }: ReportedCell): [string, string][] {
  if (state.status !== "current") return [];
  const { value } = state;
  if (value.kind !== "thing" || value.of !== "answer") return [];
  return [[`${name}.csv`, tableCsv((value.content as Answered).answer.table)]];
}

/** The report as it is written: where it may leave the department, without small counts. */
export function forReaders(input: ReportInput, threshold: number | undefined): ReportInput {
  if (threshold === undefined) return input;
  // The digest is not in the shared report, so that nobody who reads it knows the seed.
  const seed = Number.parseInt(input.cases.sha256.slice(0, 8), 16);
  return sharedReport(input, { threshold, seed });
}
