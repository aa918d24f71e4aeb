/**
 * Events and numbers at risk by group in each of many strata, for whole days and everyone observed from
 * the start, where a table of strata, days and groups would be emptier than the rows are many. The rows
 * are put in order of stratum and day by two counting sorts (stable, linear in rows and days), and
 * each stratum is read from its last day back: whoever leaves on a day was at risk on it.
 *
 * What is sorted is not row numbers but the rows themselves, each in one whole number, so that every
 * pass reads memory in its order: lowest the event, then the group, then the stratum or the day.
 */
import { type GroupCodes, groupSizes } from "./group-codes.ts";
import type { GroupRiskSets } from "./group-risk-sets.ts";
import type { WholeDays } from "./whole-days.ts";

export interface StratifiedDays extends WholeDays {
  readonly events: Uint8Array;
  readonly groups: GroupCodes;
  readonly strata: GroupCodes;
}

/** The counts of each stratum; undefined where a row would not fit one whole number. */
export function sortedDayRiskSets(rows: StratifiedDays): GroupRiskSets[] | undefined {
  const { last, strata, groups } = rows;
  const shift = 32 - Math.clz32(2 * groups.labels.length - 1);
  if (Math.max(last, strata.labels.length) * 2 ** shift >= 2 ** 31) return undefined;
  const sizes = groupSizes(strata);
  const sorted = byStratumAndDay(rows, sizes, shift);
  let end = 0;
  return Array.from(sizes, (size) => {
    const start = end;
    end += size;
    return readStratum(sorted.subarray(start, end), groups.labels.length, shift);
  });
}

/** Rows as day, group and event, in order of stratum and then of day. */
function byStratumAndDay(rows: StratifiedDays, sizes: Int32Array, shift: number): Int32Array {
  const { last } = rows;
  const dayEnd = new Int32Array(last + 1);
  const byDay = rowsByDay(rows, dayEnd, shift);
  const place = new Int32Array(sizes.length);
  for (let s = 1; s < sizes.length; s++) place[s] = place[s - 1]! + sizes[s - 1]!;
  const sorted = new Int32Array(byDay.length);
  const mask = 2 ** shift - 1;
  for (let day = 0, k = 0; day <= last; day++) {
    const onDay = day << shift;
    for (const end = dayEnd[day]!; k < end; k++) {
      const row = byDay[k]!;
      const stratum = row >> shift;
      const at = place[stratum]!;
      sorted[at] = onDay | (row & mask);
      place[stratum] = at + 1;
    }
  }
  return sorted;
}

/** Rows as stratum, group and event, in order of day; `dayEnd` is filled with where each day ends. */
function rowsByDay(rows: StratifiedDays, dayEnd: Int32Array, shift: number): Int32Array {
  const { days, events } = rows;
  const strata = rows.strata.codes;
  const groups = rows.groups.codes;
  for (let i = 0; i < days.length; i++) dayEnd[days[i]!] = dayEnd[days[i]!]! + 1;
  for (let day = 0, start = 0; day < dayEnd.length; day++) {
    const size = dayEnd[day]!;
    dayEnd[day] = start;
    start += size;
  }
  const byDay = new Int32Array(days.length);
  for (let i = 0; i < days.length; i++) {
    const day = days[i]!;
    const at = dayEnd[day]!;
    byDay[at] = (strata[i]! << shift) | (groups[i]! << 1) | events[i]!;
    dayEnd[day] = at + 1;
  }
  return byDay;
}

/** One stratum, its rows by day; counts are filled in from the last event day back. */
function readStratum(rows: Int32Array, groups: number, shift: number): GroupRiskSets {
  const times = countEventDays(rows, shift);
  const counts = new Int32Array(2 * times * groups);
  const remaining = new Int32Array(groups);
  const mask = 2 ** shift - 1;
  let from = counts.length + groups;
  for (let k = rows.length - 1; k >= 0; ) {
    const day = rows[k]! >> shift;
    let isTime = false;
    for (; k >= 0 && rows[k]! >> shift === day; k--) {
      const group = (rows[k]! & mask) >> 1;
      remaining[group] = remaining[group]! + 1;
      if ((rows[k]! & 1) === 0) continue;
      if (!isTime) from -= 2 * groups;
      isTime = true;
      counts[from + group] = counts[from + group]! + 1;
    }
    if (isTime) counts.set(remaining, from - groups);
  }
  return { groups, subjects: remaining, counts };
}

function countEventDays(rows: Int32Array, shift: number): number {
  let times = 0;
  let before = -1;
  for (let k = 0; k < rows.length; k++) {
    const row = rows[k]!;
    if ((row & 1) === 0 || row >> shift === before) continue;
    before = row >> shift;
    times++;
  }
  return times;
}
