import { dayNumber } from "../../formula/calendar.ts";

/** The reader's own calendar day, as whole days since 1970-01-01. */
export function localDay(now: Date): number {
  return dayNumber({ year: now.getFullYear(), month: now.getMonth() + 1, day: now.getDate() });
}
