import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { lowVisionTables } from "../../src/cases/acuity.ts";
import type { CaseReading } from "../../src/cases/case-reading.ts";
import type { ColumnMatch } from "../../src/cases/matching.ts";
import { type ReadCasesOptions, readCases } from "../../src/cases/read-cases.ts";
import { formatProblem } from "../../src/problem/format-problem.ts";

/** One small broken file for each kind of problem, beside it the whole message it must give. */
const catalogue = join(import.meta.dirname, "../problems/cases");

/** The kinds of problem in the catalogue. */
export function catalogued(): readonly string[] {
  const files = readdirSync(catalogue).filter((file) => file.endsWith(".csv"));
  return files.map((file) => file.slice(0, -".csv".length)).sort();
}

export function readBroken(code: string): CaseReading {
  const bytes = readFileSync(join(catalogue, `${code}.csv`));
  return readCases({ name: `${code}.csv`, bytes }, optionsOf(code));
}

/** The messages of that kind which a reading gives, with their severity. */
export function messagesOf(reading: CaseReading, code: string): string {
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
}

function optionsOf(code: string): ReadCasesOptions {
  const path = join(catalogue, `${code}.json`);
  if (!existsSync(path)) return {};
  const { columns, today, lowVision } = JSON.parse(readFileSync(path, "utf8")) as WrittenOptions;
  const table = lowVisionTables.find(({ name }) => name === lowVision);
  return {
    ...(columns && { matching: { columns: new Map(Object.entries(columns)), values: new Map() } }),
    ...(today !== undefined && { today }),
    ...(table && { lowVision: table }),
  };
}
