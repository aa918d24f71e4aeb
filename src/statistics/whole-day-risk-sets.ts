/**
 * Events and numbers at risk by group, for whole days and everyone observed from the start: all rows
 * are counted once, in a table whose key is the stratum, the day, the group and whether the event
 * happened, and each stratum is then read off its part of the table. Where that would be nearly empty, as
 * with many strata, the rows are sorted instead.
 */
import type { GroupCodes } from "./group-codes.ts";
import type { GroupRiskSets } from "./group-risk-sets.ts";
import { sortedDayRiskSets } from "./sorted-day-risk-sets.ts";
import type { WholeDays } from "./whole-days.ts";

export interface WholeDayRows extends WholeDays {
  readonly events: Uint8Array;
  readonly groups: GroupCodes;
  readonly strata?: GroupCodes;
}

/** With more places than this for a row, sorting the rows is faster than reading the table. */
const EMPTIEST = 16;

/** The counts of each stratum; undefined where the table would be much larger than the rows. */
export function wholeDayRiskSets(rows: WholeDayRows): GroupRiskSets[] | undefined {
  const { strata } = rows;
  const groups = rows.groups.labels.length;
  if (groups === 0) return Array.from({ length: strata?.labels.length ?? 1 }, noRows);
  const size = (rows.last + 1) * groups * 2;
  if (strata === undefined) {
    if (size > 32 * rows.days.length + 100_000) return undefined;
    const table = new Int32Array(size);
    countRows(table, rows);
    return [readTable(table, groups)];
  }
  const places = size * strata.labels.length;
  if (places > EMPTIEST * rows.days.length) return sortedDayRiskSets({ ...rows, strata });
  const table = new Int32Array(places);
  countStratifiedRows(table, rows, strata.codes);
  return Array.from(strata.labels, (_, s) =>
    readTable(table.subarray(s * size, (s + 1) * size), groups),
  );
}

function noRows(): GroupRiskSets {
  return { groups: 0, times: 0, events: new Float64Array(0), atRisk: new Float64Array(0) };
}

function countRows(table: Int32Array, { days, events, groups }: WholeDayRows): void {
  const count = groups.labels.length;
  const { codes } = groups;
  for (let i = 0; i < days.length; i++) {
    const cell = 2 * (days[i]! * count + codes[i]!) + events[i]!;
    table[cell] = table[cell]! + 1;
  }
}

function countStratifiedRows(table: Int32Array, rows: WholeDayRows, strata: Int32Array): void {
  const { days, last, events, groups } = rows;
  const count = groups.labels.length;
  const { codes } = groups;
  const width = last + 1;
  for (let i = 0; i < days.length; i++) {
    const cell = 2 * ((strata[i]! * width + days[i]!) * count + codes[i]!) + events[i]!;
    table[cell] = table[cell]! + 1;
  }
}

/** From the last day back: whoever leaves on a day was at risk on it, and events make it a time. */
function readTable(table: Int32Array, groups: number): GroupRiskSets {
  const width = 2 * groups;
  const times = countEventDays(table, width);
  const events = new Float64Array(times * groups);
  const atRisk = new Float64Array(times * groups);
  const remaining = new Int32Array(groups);
  let from = events.length;
  for (let start = table.length - width; start >= 0; start -= width) {
    let happened = 0;
    for (let g = 0, cell = start; g < groups; g++, cell += 2) {
      const own = table[cell + 1]!;
      happened += own;
      remaining[g] = remaining[g]! + table[cell]! + own;
    }
    if (happened === 0) continue;
    from -= groups;
    for (let g = 0; g < groups; g++) {
      events[from + g] = table[start + 2 * g + 1]!;
      atRisk[from + g] = remaining[g]!;
    }
  }
  return { groups, times, events, atRisk };
}

function countEventDays(table: Int32Array, width: number): number {
  let times = 0;
  for (let start = 0; start < table.length; start += width) {
    let happened = 0;
    for (let cell = start + 1; cell < start + width; cell += 2) happened |= table[cell]!;
    if (happened > 0) times++;
  }
  return times;
}
