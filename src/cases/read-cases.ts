import type { Problem } from "../problem/problem.ts";
import type { CaseReading } from "./case-reading.ts";
import { foldSpelling } from "./fold-spelling.ts";
import { headingRow } from "./heading-row.ts";
import { fieldBySpelling } from "./heading-spelling.ts";
import type { Matching } from "./matching.ts";
import { type CaseFile, openFile } from "./open-file.ts";
import { privateByHeading } from "./private-column.ts";
import { rawTable } from "./raw-table.ts";
import { readRows } from "./read-rows.ts";
import { type ReadTableOptions, readTable } from "./read-table.ts";
import { noCases, noHeadings, strayQuotes, unusable } from "./unreadable-file.ts";

export type ReadCasesOptions = ReadTableOptions;

/**
 * Reads a file of cases: bytes to text, rows, matched columns, checked cases. Never throws,
 * whatever the bytes: what cannot be read is a problem, and a file of which nothing can be read
 * gives no cases and a problem of severity `stop`. Every row is in `cases` or in `leftOut`.
 */
export function readCases(file: CaseFile, options: ReadCasesOptions = {}): CaseReading {
  const { matching } = options;
  const { facts, text, problems } = openFile(file);
  if (text === undefined) return noCases({ facts, problems, matching, lines: [], leftOut: [] });
  const rows = readRows(text, facts.delimiter);
  const heading = headingRow(rows, headingTest(matching));
  if (heading === undefined) {
    const { lines } = rows;
    const all = [...problems, noHeadings(facts)];
    return noCases({ facts, problems: all, matching, lines, leftOut: [] });
  }
  const table = rawTable(rows, heading);
  const found: Problem[] = [...problems, ...strayQuotes(rows), ...table.problems];
  const stop = unusable(table, facts);
  if (stop === undefined) return readTable(table, { facts, problems: found }, options);
  const { lines, leftOut } = table;
  return noCases({ facts, problems: [...found, stop], matching, lines, leftOut });
}

/** Whether a text is a heading that the notebook, the dictionary or the rules of privacy know. */
function headingTest(matching: Matching | undefined): (written: string) => boolean {
  const told = new Set([...(matching?.columns.keys() ?? [])].map(foldSpelling));
  return (written) =>
    written !== "" &&
    (told.has(foldSpelling(written)) ||
      fieldBySpelling(written) !== undefined ||
      privateByHeading(written) !== undefined);
}
