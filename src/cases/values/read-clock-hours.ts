import type { ColumnSpec } from "../field.ts";
import { isMissing } from "../missing-value.ts";
import { WrittenColumn } from "../written-column.ts";
import type { ColumnContext, ColumnReading, Remark } from "./column-reading.ts";
import { readCodeLists } from "./read-codes.ts";

/**
 * Clock hours, several a row. Half an hour ("10:30", "1.5") lies on the line between two hours and
 * is counted under both, which is said: to take either would turn the break by 15 degrees at the
 * toss of a coin, while its neighbours and its distance from other breaks stay true this way.
 * Other minutes go to the nearest hour.
 */
export function readClockHours(
  written: WrittenColumn,
  spec: ColumnSpec,
  context: ColumnContext,
): ColumnReading {
  const inWholeHours = (value: string): string => {
    const isTold = context.codes?.has(value) || isMissing(value);
    return isTold ? value : value.replaceAll(time, wholeHours);
  };
  const halves = written.count((value) => inWholeHours(value) !== value);
  const hours = halves === 0 ? written : WrittenColumn.of(written.map(inWholeHours));
  const read = readCodeLists(hours, spec, context);
  return { ...read, remarks: halves > 0 ? [remark(halves), ...read.remarks] : read.remarks };
}

/** An hour with minutes, or with a half as a decimal. */
const time = /(?<![\d.:])(\d{1,2})(?::([0-5]\d)|\.(5|30))(?![\d.:])/g;

function wholeHours(written: string, hourWritten: string, minutes?: string): string {
  const hour = Number(hourWritten);
  if (hour > 12) return written;
  const past = minutes === undefined ? 30 : Number(minutes);
  const [before, after] = [hour === 0 ? 12 : hour, (hour % 12) + 1];
  if (past === 30) return `${before};${after}`;
  return String(past < 30 ? before : after);
}

function remark(count: number): Remark {
  return {
    severity: "note",
    code: "clock-hours-between",
    message: `${count === 1 ? "1 value names" : `${count} values name`} a time between whole clock hours; half past ten is counted under 10 and under 11.`,
    remedy: "write whole clock hours where the difference matters",
  };
}
