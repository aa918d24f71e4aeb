import type { DurationUnit } from "./value.ts";

/** Lengths of time as a working writes them behind a number. */
export const units: ReadonlyMap<string, DurationUnit> = new Map([
  ["day", "day"],
  ["days", "day"],
  ["week", "week"],
  ["weeks", "week"],
  ["month", "month"],
  ["months", "month"],
  ["year", "year"],
  ["years", "year"],
]);

/** Short forms that people write, and the unit that takes their place. */
export const unitSlips: ReadonlyMap<string, string> = new Map([
  ["d", "days"],
  ["w", "weeks"],
  ["wk", "weeks"],
  ["wks", "weeks"],
  ["mo", "months"],
  ["mos", "months"],
  ["mth", "months"],
  ["mths", "months"],
  ["y", "years"],
  ["yr", "years"],
  ["yrs", "years"],
]);
