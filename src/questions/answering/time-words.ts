import type { Duration } from "../../formula/value.ts";
import type { EyeRecord, TimeUnit } from "../../outcomes/eye-record.ts";
import { figure } from "./wording.ts";

const daysIn: Readonly<Record<TimeUnit, number>> = {
  days: 1,
  weeks: 7,
  months: 365.25 / 12,
  years: 365.25,
};

/** A length of time in the record's own unit: exact where it was written in that unit. */
export function timeIn(unit: TimeUnit, length: Duration): number {
  if (`${length.unit}s` === unit) return length.amount;
  return unit === "days" ? length.days : length.days / daysIn[unit];
}

/** "12 months", "1 day", as a reader would write it. */
export function durationText(length: Duration): string {
  return `${length.amount} ${length.unit}${length.amount === 1 ? "" : "s"}`;
}

/** A time of the record in words: "day 41", "43.7 months". */
export function timeText(record: EyeRecord, time: number): string {
  return record.timeUnit === "days" ? `day ${figure(time)}` : `${figure(time)} ${record.timeUnit}`;
}

/** A length of time of the record in words: "365 days", "1 day", "43.7 months". */
export function lengthText(record: EyeRecord, time: number): string {
  const { timeUnit } = record;
  return `${figure(time)} ${time === 1 ? timeUnit.slice(0, -1) : timeUnit}`;
}

/** Whole days from a time of the record, for drawing on one axis. */
export function daysOf(record: EyeRecord, time: number): number {
  return time * daysIn[record.timeUnit];
}

/** The lengths at which a curve is read unless the reader asks for others. */
export const usualLandmarks: readonly (readonly [amount: number, unit: Duration["unit"]])[] = [
  [1, "month"],
  [3, "month"],
  [6, "month"],
  [12, "month"],
];
