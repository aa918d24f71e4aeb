import { dayFromParts } from "../cases/calendar-day.ts";

/** "2026-03-31" as a day since 1970-01-01; null where it is no day. */
export function dayGiven(written: string): number | null {
  const [year, month, day] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(written)?.slice(1).map(Number) ?? [];
  if (year === undefined || month === undefined || day === undefined) return null;
  return dayFromParts(year, month, day);
}
