import type { Problem, Severity } from "../problem/problem.ts";
import type { LeftOutRow } from "./case-reading.ts";
import { CasesToCheck, type Finding } from "./checks/check.ts";
import { queryFindings, stoppingFindings } from "./checks/run-checks.ts";
import { withCase, withOperationNumber } from "./made-columns.ts";
import type { CheckedColumn } from "./read-columns.ts";

export interface CheckedCases {
  readonly columns: readonly CheckedColumn[];
  /** The line of each row that is kept. */
  readonly lines: readonly number[];
  readonly leftOut: readonly LeftOutRow[];
  readonly problems: readonly Problem[];
}

/** Checks rows, leaves out those that are stopped, numbers the operations of those that stay. */
export function checkCases(
  columns: readonly CheckedColumn[],
  lines: readonly number[],
  today: number | undefined,
): CheckedCases {
  const stops = stoppingFindings(new CasesToCheck(columns, today));
  const stopped = new Set(stops.map(({ row }) => row));
  const kept = [...lines.keys()].filter((row) => !stopped.has(row));
  const keptLines = kept.map((row) => lines[row]!);
  const numbered = withOperationNumber(stopped.size === 0 ? columns : rowsIn(columns, kept));
  const queries = queryFindings(new CasesToCheck(numbered, today));
  const rowNumbers = kept.map((row) => row + 1);
  return {
    columns: withCase(numbered, rowNumbers),
    lines: keptLines,
    leftOut: stops.map(({ row, code, message }) => ({
      line: lines[row]!,
      code,
      reason: reasonOf(message),
    })),
    problems: [...problemsFrom(stops, lines, "stop"), ...problemsFrom(queries, keptLines, "query")],
  };
}

function rowsIn(columns: readonly CheckedColumn[], rows: readonly number[]): CheckedColumn[] {
  return columns.map((column) => ({
    ...column,
    values: rows.map((row) => column.values[row] ?? null),
  }));
}

/** A message without its full stop. */
function reasonOf(message: string): string {
  return message.replace(/\.$/, "");
}

function problemsFrom(
  findings: readonly Finding[],
  lines: readonly number[],
  severity: Severity,
): Problem[] {
  return findings.map(({ row, field, ...words }) => ({
    ...words,
    severity,
    place: { line: lines[row]!, field },
  }));
}
