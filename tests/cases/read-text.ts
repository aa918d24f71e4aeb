import type { CaseReading } from "../../src/cases/case-reading.ts";
import { readCases } from "../../src/cases/read-cases.ts";
import type { ReadCasesOptions } from "../../src/cases/reading-options.ts";
import { type CellValue, columnNamed } from "../../src/cases/table.ts";

/** Reads a text as the file "cases.csv" in UTF-8. */
export function readText(text: string, options: ReadCasesOptions = {}): CaseReading {
  return readCases({ name: "cases.csv", bytes: new TextEncoder().encode(text) }, options);
}

/** Values of a column of the cases; undefined where there is none. */
export function valuesOf(reading: CaseReading, name: string): readonly CellValue[] | undefined {
  return columnNamed(reading.cases, name)?.values;
}

/** Codes of the problems found. */
export function codesOf(reading: CaseReading): readonly string[] {
  return reading.problems.map(({ code }) => code);
}
