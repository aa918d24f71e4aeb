import { columnNamed } from "../../../cases/table.ts";
import { calendarDay } from "../../../formula/calendar.ts";
import type { EyeRecord } from "../../../outcomes/eye-record.ts";
import type { Group } from "../../answering/grouping.ts";

/**
 * Eyes by quarter of operation, from the first to the last, quarters without an operation among them;
 * eyes without their day apart. Undefined where the file has no days of operation.
 */
export function quarters(
  record: EyeRecord,
): { readonly groups: readonly Group[]; readonly undated: readonly number[] } | undefined {
  const days = columnNamed(record.table, "operation_date")?.values;
  if (days === undefined) return undefined;
  const byQuarter = new Map<number, number[]>();
  const undated: number[] = [];
  days.forEach((day, eye) => {
    if (typeof day !== "number") undated.push(eye);
    else byQuarter.set(quarterOf(day), [...(byQuarter.get(quarterOf(day)) ?? []), eye]);
  });
  const known = [...byQuarter.keys()];
  if (known.length === 0) return { groups: [], undated };
  const first = Math.min(...known);
  const number = Math.max(...known) - first + 1;
  const groups = Array.from({ length: number }, (_, i) => ({
    label: quarterText(first + i),
    eyes: byQuarter.get(first + i) ?? [],
  }));
  return { groups, undated };
}

/** Quarters since the year 0. */
function quarterOf(day: number): number {
  const { year, month } = calendarDay(day);
  return 4 * year + Math.floor((month - 1) / 3);
}

/** "2025 Q1". */
function quarterText(quarter: number): string {
  return `${Math.floor(quarter / 4)} Q${(quarter % 4) + 1}`;
}
