import type { Problem } from "../problem/problem.ts";
import type { LowVisionTable } from "./acuity.ts";
import { withAgeFromBirth } from "./age-from-birth.ts";
import type { CaseReading, FileFacts, LeftOutRow, MatchedColumn } from "./case-reading.ts";
import { checkCases } from "./check-cases.ts";
import { dropPrivate } from "./drop-private.ts";
import { withQuadrants } from "./made-columns.ts";
import { type ColumnPlan, matchColumns } from "./match-columns.ts";
import type { Matching } from "./matching.ts";
import { matchingToKeep } from "./matching-to-keep.ts";
import { placedProblems } from "./placed-problems.ts";
import type { RawTable } from "./raw-table.ts";
import { readColumns } from "./read-columns.ts";
import { linesWithheld, withoutStrayed } from "./strayed-values.ts";
import { tableOf } from "./table.ts";
import { noCases, noUsableColumn } from "./unreadable-file.ts";

export interface ReadTableOptions {
  readonly matching?: Matching;
  /** Whole days since 1970-01-01: a date after it is a query. Absent: not checked. */
  readonly today?: number;
  /** The code that stands for a patient; P001, P002 … in order of appearance where absent. */
  readonly pseudonym?: (patient: string) => string;
  /** What counting fingers, hand movements and light perception are in logMAR. */
  readonly lowVision?: LowVisionTable;
}

export interface Opened {
  readonly facts: FileFacts;
  readonly problems: readonly Problem[];
}

/** Cases from the table of a file: its columns matched, read, completed and checked. */
export function readTable(table: RawTable, opened: Opened, options: ReadTableOptions): CaseReading {
  const { facts } = opened;
  const { matching, pseudonym, lowVision, today } = options;
  const matched = dropPrivate(table, matchColumns(table, facts.delimiter, matching));
  const { plans } = matched;
  if (!isUsable(table, plans)) return unusableTable(table, opened, matching);
  const { delimiter } = facts;
  const read = readColumns(withoutStrayed(table, plans), plans, {
    delimiter,
    matching,
    pseudonym,
    lowVision,
  });
  const aged = withAgeFromBirth(withQuadrants(read.columns), table, plans);
  const checked = checkCases(aged.columns, table.lines, today);
  const leftOut = [...table.leftOut, ...checked.leftOut].sort(byLine);
  const problems = [
    ...opened.problems,
    ...matched.problems,
    ...read.problems,
    ...aged.problems,
    ...checked.problems,
  ];
  return {
    file: facts,
    rowsRead: table.lines.length + table.leftOut.length,
    cases: tableOf(checked.columns),
    lines: checked.lines,
    leftOut,
    matching: matchingToKeep({ headings: table.headings, plans, settled: read.settled }, matching),
    columns: read.matched.map((column) => countLeftOut(column, table.leftOut.length)),
    problems: placedProblems(problems, facts, linesWithheld(table, plans)),
  };
}

/** At least one field of the dictionary or two columns of the department's own. */
function isUsable(table: RawTable, plans: readonly ColumnPlan[]): boolean {
  const kept = plans.filter(({ spec }) => spec !== undefined);
  const filled = kept.filter(({ position }) =>
    table.columns[position]!.some((value) => value !== ""),
  );
  return filled.length >= 2 || filled.some(({ isField, by }) => isField || by === "notebook");
}

function unusableTable(
  table: RawTable,
  { facts, problems }: Opened,
  matching: Matching | undefined,
): CaseReading {
  const { lines, leftOut } = table;
  const all = [...problems, noUsableColumn(facts)];
  return noCases({ facts, problems: all, matching, lines, leftOut });
}

/** Rows that are no cases have no values: they are missing. */
function countLeftOut(column: MatchedColumn, leftOut: number): MatchedColumn {
  return column.by === "dropped" ? column : { ...column, missing: column.missing + leftOut };
}

function byLine(one: LeftOutRow, other: LeftOutRow): number {
  return one.line - other.line;
}
