import { dayFromParts } from "../src/cases/calendar-day.ts";
import type { Random } from "./random.ts";

/** Most weekend cases wait for the next list, unless the period ends first. */
export function theatreDay(random: Random, day: number, last: number): number {
  const weekday = (day + 4) % 7;
  const untilMonday = weekday === 0 ? 1 : weekday === 6 ? 2 : 0;
  const waits = untilMonday > 0 && !random.chance(0.25);
  return Math.min(last, waits ? day + untilMonday : day);
}

/** The day of an ISO date of this module's own constants. */
export function dayOf(iso: string): number {
  const [year, month, day] = iso.split("-").map(Number);
  const found = dayFromParts(year!, month!, day!);
  if (found === null) throw new RangeError(`${iso} is not a calendar day.`);
  return found;
}
