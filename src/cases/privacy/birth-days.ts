import { isMissing } from "../missing-value.ts";
import { type WrittenDay, writtenDay } from "../values/written-day.ts";
import type { WrittenColumn } from "../written-column.ts";

const yearDays = 365.25;
/** Shorter before the operation, a day may be the onset, an earlier operation or a first visit. */
const longBefore = 10 * yearDays;
/** No file of operations reaches over as many years. */
const longSpan = 40 * yearDays;

/**
 * Whether the values are dates of birth: days in eight of ten, and of those eight of ten lie ten
 * years or more before the operation of their row, as no other date of a case does. Without days
 * of operation: whether the middle eight tenths of them span forty years.
 */
export function areBirthDays(
  written: WrittenColumn,
  operationDays: readonly (number | null)[],
): boolean {
  const shapes = written.different.map((value) => (isMissing(value) ? null : writtenDay(value)));
  const counts = written.counts();
  const rowsOf = (has: (shape: WrittenDay | null) => boolean) =>
    counts.reduce((sum, rows, place) => sum + (has(shapes[place]!) ? rows : 0), 0);
  const dated = rowsOf((shape) => shape !== null && roughDay(shape, null) !== null);
  if (dated === 0 || dated < 0.8 * rowsOf((shape) => shape !== null)) return false;
  const days = written.spread(shapes).flatMap((shape, row) => {
    const operated = operationDays[row] ?? null;
    const day = shape && roughDay(shape, operated);
    return day === null ? [] : [{ day, operated }];
  });
  const gaps = days.flatMap(({ day, operated }) => (operated === null ? [] : operated - day));
  if (gaps.length === 0) return spanOf(days.map(({ day }) => day)) >= longSpan;
  return gaps.filter((gap) => gap >= longBefore).length >= 0.8 * gaps.length;
}

/**
 * The day that a text says, to the year: whether day or month comes first does not matter here. A
 * year of two digits that lies well after the operation is of the century before.
 */
function roughDay(read: WrittenDay, operated: number | null): number | null {
  if (read.shape === "day") return read.day;
  if (read.shape !== "numeric") return null;
  const day = read.dayFirst ?? read.monthFirst;
  const isOfCenturyBefore = day !== null && operated !== null && day > operated + longBefore;
  return isOfCenturyBefore ? day - 100 * yearDays : day;
}

function spanOf(days: readonly number[]): number {
  const inOrder = [...days].sort((one, other) => one - other);
  const tenth = Math.floor(inOrder.length / 10);
  return inOrder[inOrder.length - 1 - tenth]! - inOrder[tenth]!;
}
