import type { CaseReading } from "../../cases/case-reading.ts";
import { columnNamed } from "../../cases/table.ts";
import { calendarDay, dayNumber } from "../../formula/calendar.ts";
import type { DatePreset } from "../protocol.ts";

/** Month in which a financial year begins: April, as in the United Kingdom (common practice). */
const financialYearBegins = 4;

/** Days of first operations in the cases, whole days since 1970-01-01. */
export interface OperatedBetween {
  readonly first: number;
  readonly last: number;
}

/**
 * Ranges of dates that a reader is likely to want: the last quarter and the last financial year
 * that were over before `today` and hold operations, and all of them. None without operations.
 */
export function datePresets(
  operated: OperatedBetween | undefined,
  today: number,
): readonly DatePreset[] {
  if (operated === undefined) return [];
  const { first, last } = operated;
  return [
    { name: "last quarter", ...lastOver(3, 1, { last, today }) },
    { name: "last financial year", ...lastOver(12, financialYearBegins, { last, today }) },
    { name: "all", from: first, to: last },
  ];
}

/**
 * The first and the last day on which an eye was operated on for the first time, or undefined
 * where no day is known: later operations belong to the eye's first repair.
 */
export function operatedBetween(reading: CaseReading | undefined): OperatedBetween | undefined {
  if (reading === undefined) return undefined;
  const firstDays = new Map<string, number>();
  const valuesOf = (name: string) => columnNamed(reading.cases, name)?.values;
  const [patients, eyes] = [valuesOf("patient"), valuesOf("eye")];
  (valuesOf("operation_date") ?? []).forEach((day, row) => {
    if (typeof day !== "number") return;
    const eye = JSON.stringify([patients?.[row] ?? `row ${row}`, eyes?.[row] ?? null]);
    firstDays.set(eye, Math.min(day, firstDays.get(eye) ?? day));
  });
  let [first, last] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const day of firstDays.values()) {
    first = Math.min(first, day);
    last = Math.max(last, day);
  }
  return first <= last ? { first, last } : undefined;
}

/** The last period of so many months, counted from a month, that is over and reaches operations. */
function lastOver(
  months: number,
  from: number,
  { last, today }: { readonly last: number; readonly today: number },
): { readonly from: number; readonly to: number } {
  const { year, month } = calendarDay(Math.min(last, today));
  const since = year * 12 + (month - 1) - (from - 1);
  const begins = since - (((since % months) + months) % months) + (from - 1);
  const isOver = firstOf(begins + months) <= today;
  const start = isOver ? begins : begins - months;
  return { from: firstOf(start), to: firstOf(start + months) - 1 };
}

/** The first day of a month, counted from January of the year 0. */
function firstOf(month: number): number {
  return dayNumber({ year: Math.floor(month / 12), month: (month % 12) + 1, day: 1 });
}
