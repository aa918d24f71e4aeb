import { formatDay } from "../calendar-day.ts";
import { fieldNamed } from "../dictionary.ts";
import type { CheckedColumn } from "../read-columns.ts";
import type { CellValue } from "../table.ts";
import type { Finding } from "./check.ts";

export interface WithoutFuture {
  readonly columns: readonly CheckedColumn[];
  readonly findings: readonly Finding[];
}

/**
 * Sets aside the days of the dictionary that lie after `today`: the value is missing, and listed.
 * Kept, a visit to come would lengthen follow-up by days that nobody has lived. Columns of the
 * department's own (a next appointment, perhaps) stay as they are.
 */
export function withoutFutureDays(
  columns: readonly CheckedColumn[],
  today: number | undefined,
): WithoutFuture {
  if (today === undefined) return { columns, findings: [] };
  const findings: Finding[] = [];
  const kept = columns.map((column) => {
    if (fieldNamed(column.name)?.kind !== "day") return column;
    const before = findings.length;
    column.values.forEach((day, row) => {
      if (isAfter(day, today)) findings.push(future({ row, field: column.name, day }, today));
    });
    if (findings.length === before) return column;
    return { ...column, values: column.values.map((day) => (isAfter(day, today) ? null : day)) };
  });
  return { columns: kept, findings };
}

function isAfter(day: CellValue, today: number): day is number {
  return typeof day === "number" && day > today;
}

function future(at: Pick<Finding, "row" | "field"> & { day: number }, today: number): Finding {
  return {
    row: at.row,
    field: at.field,
    code: "day-in-future",
    message: "this day has not come yet; it is set aside, and the value is missing.",
    found: formatDay(at.day),
    expected: `a day up to ${formatDay(today)}`,
    remedy: "correct the date",
  };
}
