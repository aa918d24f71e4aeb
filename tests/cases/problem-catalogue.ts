import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { lowVisionTables } from "../../src/cases/acuity.ts";
import type { CaseReading } from "../../src/cases/case-reading.ts";
import { readCorrections } from "../../src/cases/corrections/read-corrections.ts";
import type { FurtherFileKind } from "../../src/cases/joining/join-report.ts";
import { readCaseFiles } from "../../src/cases/joining/read-case-files.ts";
import type { ColumnMatch } from "../../src/cases/matching.ts";
import { readSecret } from "../../src/cases/pseudonyms/secret-file.ts";
import { readCases } from "../../src/cases/read-cases.ts";
import type { ReadCasesOptions } from "../../src/cases/reading-options.ts";
import { prepareFile } from "../../src/cases/workbook/prepare-file.ts";
import { formatProblem } from "../../src/problem/format-problem.ts";

/** One small broken file for each kind of problem, beside it the whole message it must give. */
const catalogue = join(import.meta.dirname, "../problems/cases");

/** The kinds of problem in the catalogue. */
export function catalogued(): readonly string[] {
  const files = readdirSync(catalogue).filter((file) => file.endsWith(".csv"));
  return files.map((file) => file.slice(0, -".csv".length)).sort();
}

/** What reading a broken file gives: a reading of cases, or the problems of a file of its own kind. */
export async function readBroken(code: string): Promise<Pick<CaseReading, "problems">> {
  const bytes = readFileSync(join(catalogue, `${code}.csv`));
  const name = `${code}.csv`;
  const { reads, before = "", as = "operations", sheet } = writtenOptions(code);
  if (reads === "corrections") return readCorrections(bytes.toString(), name);
  if (reads === "key") {
    const secret = readSecret(bytes.toString(), name);
    return { problems: secret.ok ? [] : secret.problems };
  }
  if (before === "") return readCases(await prepareFile({ name, bytes, sheet }), optionsOf(code));
  const first = { name: "before.csv", bytes: new TextEncoder().encode(before) };
  return readCaseFiles(first, [{ name, bytes, as }], optionsOf(code));
}

/** The messages of that kind which a reading gives, with their severity. */
export function messagesOf(reading: Pick<CaseReading, "problems">, code: string): string {
  return reading.problems
    .filter((problem) => problem.code === code)
    .map((problem) => `${problem.severity}: ${formatProblem(problem)}\n`)
    .join("\n");
}

export function expectedMessages(code: string): string {
  return readFileSync(join(catalogue, `${code}.message`), "utf8");
}

interface WrittenOptions {
  readonly columns?: Readonly<Record<string, ColumnMatch>>;
  readonly today?: number;
  readonly lowVision?: string;
  /** What kind of file it is, where it is not one of cases. */
  readonly reads?: "corrections" | "key";
  /** Lines of a file of corrections. */
  readonly corrections?: readonly string[];
  /** The file that this one is put together with, and as what. */
  readonly before?: string;
  readonly as?: FurtherFileKind;
  /** Of a workbook. */
  readonly sheet?: string;
  /** The code that every patient is given. */
  readonly pseudonym?: string;
}

function writtenOptions(code: string): WrittenOptions {
  const path = join(catalogue, `${code}.json`);
  return existsSync(path) ? (JSON.parse(readFileSync(path, "utf8")) as WrittenOptions) : {};
}

function optionsOf(code: string): ReadCasesOptions {
  const { columns, today, lowVision, corrections, pseudonym } = writtenOptions(code);
  const table = lowVisionTables.find(({ name }) => name === lowVision);
  return {
    ...(columns && { matching: { columns: new Map(Object.entries(columns)), values: new Map() } }),
    ...(today !== undefined && { today }),
    ...(table && { lowVision: table }),
    ...(corrections && { corrections: readCorrections(corrections.join("\n")).corrections }),
    ...(pseudonym && { pseudonym: () => pseudonym }),
  };
}
