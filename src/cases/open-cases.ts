import type { Problem } from "../problem/problem.ts";
import type { FileFacts, LeftOutRow } from "./case-reading.ts";
import { foldSpelling } from "./fold-spelling.ts";
import { headingRow } from "./heading-row.ts";
import { fieldBySpelling } from "./heading-spelling.ts";
import { type ColumnPlan, matchColumns } from "./match-columns.ts";
import type { Matching } from "./matching.ts";
import { type CaseFile, openFile } from "./open-file.ts";
import { dropPrivate } from "./privacy/drop-private.ts";
import { privateByHeading } from "./privacy/private-heading.ts";
import { withoutStrayed } from "./privacy/strayed-values.ts";
import { withholdIdentifiers } from "./privacy/withhold-identifiers.ts";
import { settleRagged } from "./ragged-rows.ts";
import { type RawTable, rawTable } from "./raw-table.ts";
import { readRows } from "./read-rows.ts";
import { noHeadings, noUsableColumn, strayQuotes, unusable } from "./unreadable-file.ts";

/** A file as far as it can be read by itself: its rows under matched headings, still as text. */
export interface OpenedCases {
  readonly facts: FileFacts;
  /** Absent where no case can be read: a problem of severity `stop` says why. */
  readonly matched?: MatchedTable;
  readonly problems: readonly Problem[];
  /** Lines of rows that are below the headings, or of all rows where there are none. */
  readonly lines: readonly number[];
  readonly leftOut: readonly LeftOutRow[];
}

export interface ReadableCases extends OpenedCases {
  readonly matched: MatchedTable;
}

export interface MatchedTable {
  readonly table: RawTable;
  /** One for each heading. */
  readonly plans: readonly ColumnPlan[];
  /** Data rows in the file, also those left out. */
  readonly rowsRead: number;
  readonly leftOut: readonly LeftOutRow[];
}

export function isReadable(opened: OpenedCases): opened is ReadableCases {
  return opened.matched !== undefined;
}

/** Opens a file of cases: bytes to text, rows, headings matched to fields, private columns dropped. */
export function openCases(file: CaseFile, matching: Matching | undefined): OpenedCases {
  const { facts, text, problems } = openFile(file);
  if (text === undefined) return { facts, problems, lines: [], leftOut: [] };
  const rows = readRows(text, facts.delimiter);
  const heading = headingRow(rows, headingTest(matching));
  if (heading === undefined) {
    return { facts, problems: [...problems, noHeadings(facts)], lines: rows.lines, leftOut: [] };
  }
  const table = rawTable(rows, heading);
  const found = [...problems, ...strayQuotes(rows), ...table.problems];
  const stop = unusable(table, facts);
  if (stop !== undefined) return stopped(table, facts, [...found, stop]);
  return matchTable(table, { facts, problems: found }, matching);
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

function matchTable(
  table: RawTable,
  { facts, problems }: Pick<OpenedCases, "facts" | "problems">,
  matching: Matching | undefined,
): OpenedCases {
  const matched = dropPrivate(table, matchColumns(table, facts.delimiter, matching));
  const { plans } = matched;
  if (!isUsable(table, plans)) return stopped(table, facts, [...problems, noUsableColumn(facts)]);
  const settled = settleRagged(table, plans);
  const withheld = withholdIdentifiers(withoutStrayed(settled.table, plans), plans);
  const leftOut = [...table.leftOut, ...settled.leftOut];
  const rowsRead = table.lines.length + table.leftOut.length;
  return {
    facts,
    matched: { table: withheld.table, plans, rowsRead, leftOut },
    problems: [...problems, ...matched.problems, ...settled.problems, ...withheld.problems],
    lines: settled.table.lines,
    leftOut,
  };
}

function stopped(table: RawTable, facts: FileFacts, problems: readonly Problem[]): OpenedCases {
  return { facts, problems, lines: table.lines, leftOut: table.leftOut };
}

/** At least one field of the dictionary or two columns of the department's own. */
function isUsable(table: RawTable, plans: readonly ColumnPlan[]): boolean {
  const kept = plans.filter(({ spec }) => spec !== undefined);
  const filled = kept.filter(({ position }) =>
    table.columns[position]!.different.some((value) => value !== ""),
  );
  return filled.length >= 2 || filled.some(({ isField, by }) => isField || by === "notebook");
}
