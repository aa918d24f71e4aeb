import type { Problem } from "../problem/problem.ts";
import type { FileFacts } from "./case-reading.ts";
import type { RawTable } from "./raw-table.ts";
import type { FileRows } from "./read-rows.ts";

const mostColumns = 2000;

/** Why no case can be read from a table, or undefined where some can. */
export function unusable(table: RawTable, facts: FileFacts): Problem | undefined {
  if (table.headings.length > mostColumns) return tooManyColumns(facts, table.headings.length);
  return table.lines.length === 0 ? noRows(facts) : undefined;
}

export function noHeadings(facts: FileFacts): Problem {
  return stop(facts, {
    code: "no-headings",
    message: "no row of this file can be its headings.",
    expected: "a row of headings, none of them a number or a date",
    remedy: "write above each column what it holds",
  });
}

function noRows(facts: FileFacts): Problem {
  return stop(facts, {
    code: "no-rows",
    message: "this file has headings and no row below them.",
    expected: "a row for each operation",
    remedy: "save the table again as CSV",
  });
}

export function noUsableColumn(facts: FileFacts): Problem {
  return stop(facts, {
    code: "no-usable-column",
    message: "no column of this file can be used.",
    expected: "columns such as operation_date, eye, technique, last_seen_date",
    remedy: "check that this is the file of cases, and match its headings",
  });
}

function tooManyColumns(facts: FileFacts, count: number): Problem {
  return stop(facts, {
    code: "too-many-columns",
    message: "this file has too many columns to be a table of cases.",
    found: `${count} columns`,
    expected: `up to ${mostColumns} columns`,
    remedy: "check that rows end where they should",
  });
}

function stop(facts: FileFacts, words: Omit<Problem, "severity" | "place">): Problem {
  return { severity: "stop", place: { file: facts.name }, ...words };
}

/** A quote that is opened and never closed would join rows; it is read as a plain sign. */
export function strayQuotes(rows: FileRows): Problem[] {
  return [...new Set(rows.strayQuotes)].map((line) => ({
    code: "quote-stray",
    severity: "query",
    place: { line },
    message: "a quote opens a value here and does not close it; it was read as a plain sign.",
    expected: "quotes at both ends of a value, and doubled inside it",
    remedy: "take the quote out, or close it",
  }));
}
