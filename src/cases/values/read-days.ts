import { formatDay } from "../calendar-day.ts";
import { isMissing } from "../missing-value.ts";
import type { WrittenColumn } from "../written-column.ts";
import {
  type ColumnContext,
  type ColumnReading,
  type DayOrder,
  type Fault,
  missingBecause,
  type Reading,
  type Remark,
  readEach,
} from "./column-reading.ts";
import { settleDayOrder } from "./settle-day-order.ts";
import { type WrittenDay, writtenDay } from "./written-day.ts";

/**
 * Calendar days as whole days since 1970-01-01. Whether 03/04/2025 is in April or in March is
 * settled for the whole column: by the notebook, else by its values that have one reading only.
 * Where nothing settles it, a column follows the other dates of its file, if they agree; else such
 * values stay missing and the reader is asked.
 */
export function readDays(written: WrittenColumn, context: ColumnContext): ColumnReading {
  const shapes = new Map<string, WrittenDay>();
  for (const value of written.different) {
    if (!isMissing(value)) shapes.set(value, writtenDay(value));
  }
  const isSerial = areSerials(shapes);
  const order = settleDayOrder(countOf(written, shapes), context);
  const read = readEach(written, (value) => {
    const shape = shapes.get(value);
    if (shape === undefined) return { value: null };
    if (shape.shape === "serial") return serialReading(shape.day, isSerial);
    return readShape(shape, order.dayOrder);
  });
  const remarks = isSerial ? [...order.remarks, serialRemark(shapes)] : order.remarks;
  const isKept = order.dayOrder !== undefined && !order.isBorrowed;
  return { ...read, remarks, ...(isKept && { settled: { dayOrder: order.dayOrder } }) };
}

function readShape(shape: WrittenDay, dayOrder: DayOrder | undefined): Reading {
  if (shape.shape === "day") return { value: shape.day };
  if (shape.shape === "impossible") return missingBecause(noSuchDay);
  if (shape.shape !== "numeric") return missingBecause(notADay);
  const { dayFirst, monthFirst } = shape;
  if (dayFirst === monthFirst) return { value: dayFirst };
  if (dayOrder === undefined) return readUnsettled(dayFirst, monthFirst);
  const day = dayOrder === "day first" ? dayFirst : monthFirst;
  return day === null ? missingBecause(noSuchDayIn(dayOrder)) : { value: day };
}

function readUnsettled(dayFirst: number | null, monthFirst: number | null): Reading {
  if (dayFirst === null || monthFirst === null) return { value: dayFirst ?? monthFirst };
  return missingBecause({
    code: "day-two-readings",
    message: "this can be read as two days.",
    expected: `${formatDay(dayFirst)} or ${formatDay(monthFirst)}`,
    remedy: "say for the column whether the day or the month comes first",
  });
}

function serialReading(day: number, isSerial: boolean): Reading {
  return isSerial ? { value: day } : missingBecause(notADay);
}

/** Counts of days are believed only where a column holds nothing else. */
function areSerials(shapes: ReadonlyMap<string, WrittenDay>): boolean {
  return shapes.size > 0 && [...shapes.values()].every(({ shape }) => shape === "serial");
}

function serialRemark(shapes: ReadonlyMap<string, WrittenDay>): Remark {
  const [first] = shapes;
  const day = first?.[1].shape === "serial" ? formatDay(first[1].day) : "";
  return {
    severity: "note",
    code: "day-counts",
    message: `these dates are written as counts of days; ${first?.[0]} was read as ${day}.`,
    found: first?.[0] ?? "",
    remedy: "check one of them against the record",
  };
}

/** Every shape with how many rows hold it. */
function countOf(
  written: WrittenColumn,
  shapes: ReadonlyMap<string, WrittenDay>,
): ReadonlyMap<WrittenDay, number> {
  const counts = new Map<WrittenDay, number>();
  const hasNumeric = [...shapes.values()].some(({ shape }) => shape === "numeric");
  if (!hasNumeric) return counts;
  const rows = written.counts();
  written.different.forEach((value, place) => {
    const shape = shapes.get(value);
    if (shape?.shape === "numeric") counts.set(shape, rows[place]!);
  });
  return counts;
}

const notADay: Fault = {
  code: "not-a-day",
  message: "this is not a date.",
  expected: "a day such as 2025-03-31",
  remedy: "correct the value",
};

const noSuchDay: Fault = {
  code: "not-a-day",
  message: "there is no such day between 1900 and 2100.",
  expected: "a day such as 2025-03-31",
  remedy: "correct the value",
};

function noSuchDayIn(dayOrder: DayOrder): Fault {
  const remedy = `correct the value: this column writes the ${dayOrder}`;
  return { ...noSuchDay, remedy };
}
