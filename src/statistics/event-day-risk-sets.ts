/**
 * Events and numbers at risk by group in each of some strata, for whole days and everyone observed from the
 * start, counted in a table that has a place for each day of a stratum with an event, and one for the days
 * before its first: who leaves between two events was at risk at the first of them alone.
 */
import { accumulateAtRisk, type GroupRiskSets } from "./group-risk-sets.ts";
import type { StratifiedDays } from "./sorted-day-risk-sets.ts";

/** The counts of each stratum, in the order of the strata's labels. */
export function eventDayRiskSets(rows: StratifiedDays): GroupRiskSets[] {
  const groups = rows.groups.labels.length;
  const placeOf = eventDays(rows);
  const ends = numberPlaces(placeOf, rows.last + 1);
  const table = countRows(rows, placeOf, ends.at(-1)!);
  return Array.from(ends, (end, s) => {
    const start = s === 0 ? 0 : ends[s - 1]!;
    const subjects = new Int32Array(groups);
    const own = table.subarray(2 * groups * start, 2 * groups * end);
    return { groups, subjects, counts: accumulateAtRisk(own, subjects) };
  });
}

/** By stratum and day 1 where there was an event, else 0. */
function eventDays({ days, last, events, strata }: StratifiedDays): Int32Array {
  const width = last + 1;
  const { codes } = strata;
  const isEventDay = new Int32Array(strata.labels.length * width);
  for (let i = 0; i < days.length; i++) {
    const at = codes[i]! * width + days[i]!;
    isEventDay[at] = isEventDay[at]! | events[i]!;
  }
  return isEventDay;
}

/** Turns them into the places of their days in the table; gives where those of each stratum end. */
function numberPlaces(days: Int32Array, width: number): Int32Array {
  const ends = new Int32Array(days.length / width);
  let place = -1;
  for (let s = 0; s < ends.length; s++) {
    place++;
    for (let at = s * width; at < (s + 1) * width; at++) {
      place += days[at]!;
      days[at] = place;
    }
    ends[s] = place + 1;
  }
  return ends;
}

function countRows(rows: StratifiedDays, placeOf: Int32Array, places: number): Int32Array {
  const { days, events } = rows;
  const width = rows.last + 1;
  const strata = rows.strata.codes;
  const groups = rows.groups.codes;
  const count = rows.groups.labels.length;
  const table = new Int32Array(2 * count * places);
  for (let i = 0; i < days.length; i++) {
    const place = placeOf[strata[i]! * width + days[i]!]!;
    const cell = (2 * place + events[i]!) * count + groups[i]!;
    table[cell] = table[cell]! + 1;
  }
  return table;
}
