/**
 * Events and numbers at risk by group, for whole days and everyone observed from the start: all rows
 * are counted once, in a table whose key is the stratum, the day, the group and whether the event
 * happened, and each stratum is then read off its part of the table. Where that would be rather empty the table
 * has no place for days without an event, and where it would be nearly empty, as with many strata, the rows
 * are sorted instead.
 */
import { eventDayRiskSets } from "./event-day-risk-sets.ts";
import type { GroupCodes } from "./group-codes.ts";
import { accumulateAtRisk, type GroupRiskSets } from "./group-risk-sets.ts";
import { sortedDayRiskSets } from "./sorted-day-risk-sets.ts";
import type { WholeDays } from "./whole-days.ts";

export interface WholeDayRows extends WholeDays {
  readonly events: Uint8Array;
  readonly groups: GroupCodes;
  readonly strata?: GroupCodes;
}

/** With more places than this for a row, the table has a place for each day with an event alone. */
const EMPTY = 4;
/** With more than this, sorting the rows is faster than reading a table. */
const EMPTIEST = 16;

/**
 * The counts of each stratum; undefined where the table would be much larger than the rows and they
 * cannot be sorted either.
 */
export function wholeDayRiskSets(rows: WholeDayRows): GroupRiskSets[] | undefined {
  const { strata } = rows;
  const groups = rows.groups.labels.length;
  if (groups === 0) return Array.from({ length: strata?.labels.length ?? 1 }, noRows);
  const size = (rows.last + 1) * groups * 2;
  if (strata === undefined) {
    return size > 32 * rows.days.length + 100_000 ? undefined : readTables(rows, size);
  }
  const places = (size * strata.labels.length) / rows.days.length;
  if (places > EMPTIEST) return sortedDayRiskSets({ ...rows, strata });
  return places > EMPTY ? eventDayRiskSets({ ...rows, strata }) : readTables(rows, size);
}

function noRows(): GroupRiskSets {
  return { groups: 0, subjects: [], counts: new Int32Array(0) };
}

/** Counts all rows, then turns each stratum's part of the table into numbers at risk where it lies. */
function readTables(rows: WholeDayRows, size: number): GroupRiskSets[] {
  const { strata } = rows;
  const strataCount = strata?.labels.length ?? 1;
  const table = new Int32Array(size * strataCount);
  if (strata === undefined) countRows(table, rows);
  else countStratifiedRows(table, rows, strata.codes);
  const groups = rows.groups.labels.length;
  return Array.from({ length: strataCount }, (_, s) => {
    const subjects = new Int32Array(groups);
    const counts = accumulateAtRisk(table.subarray(s * size, (s + 1) * size), subjects);
    return { groups, subjects, counts };
  });
}

function countRows(table: Int32Array, { days, events, groups }: WholeDayRows): void {
  const count = groups.labels.length;
  const { codes } = groups;
  const even = days.length & ~1;
  for (let i = 0; i < even; i += 2) {
    const cell = (2 * days[i]! + events[i]!) * count + codes[i]!;
    const next = (2 * days[i + 1]! + events[i + 1]!) * count + codes[i + 1]!;
    table[cell] = table[cell]! + 1;
    table[next] = table[next]! + 1;
  }
  if (even < days.length) {
    const cell = (2 * days[even]! + events[even]!) * count + codes[even]!;
    table[cell] = table[cell]! + 1;
  }
}

function countStratifiedRows(table: Int32Array, rows: WholeDayRows, strata: Int32Array): void {
  const { days, last, events, groups } = rows;
  const count = groups.labels.length;
  const { codes } = groups;
  const width = last + 1;
  const even = days.length & ~1;
  for (let i = 0; i < even; i += 2) {
    const day = strata[i]! * width + days[i]!;
    const nextDay = strata[i + 1]! * width + days[i + 1]!;
    const cell = (2 * day + events[i]!) * count + codes[i]!;
    const next = (2 * nextDay + events[i + 1]!) * count + codes[i + 1]!;
    table[cell] = table[cell]! + 1;
    table[next] = table[next]! + 1;
  }
  if (even < days.length) {
    const day = strata[even]! * width + days[even]!;
    const cell = (2 * day + events[even]!) * count + codes[even]!;
    table[cell] = table[cell]! + 1;
  }
}
