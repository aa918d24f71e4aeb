/**
 * Events and numbers at risk by group in each of many strata, for whole days and everyone observed from
 * the start, where a table of strata, days and groups would be emptier than the rows are many. The rows
 * are put in order of stratum and day by two counting sorts (stable, linear in rows and days), and
 * each stratum is read from its last day back: whoever leaves on a day was at risk on it.
 */
import { type GroupCodes, groupSizes } from "./group-codes.ts";
import type { GroupRiskSets } from "./group-risk-sets.ts";
import type { WholeDays } from "./whole-days.ts";

export interface StratifiedDays extends WholeDays {
  readonly events: Uint8Array;
  readonly groups: GroupCodes;
  readonly strata: GroupCodes;
}

/** The counts of each stratum, in the order of the strata's labels. */
export function sortedDayRiskSets(rows: StratifiedDays): GroupRiskSets[] {
  const { days, last, strata } = rows;
  const byDay = countingSort(days, last + 1, undefined);
  const order = countingSort(strata.codes, strata.labels.length, byDay);
  let end = 0;
  return Array.from(groupSizes(strata), (size) => {
    const start = end;
    end += size;
    return readStratum(rows, order.subarray(start, end));
  });
}

/** Row numbers in ascending order of a column of codes, ties in the order given. */
function countingSort(codes: Int32Array, count: number, order: Int32Array | undefined): Int32Array {
  const places = new Int32Array(count + 1);
  for (let i = 0; i < codes.length; i++) places[codes[i]! + 1] = places[codes[i]! + 1]! + 1;
  for (let code = 1; code <= count; code++) places[code] = places[code]! + places[code - 1]!;
  const sorted = new Int32Array(codes.length);
  for (let k = 0; k < codes.length; k++) {
    const row = order === undefined ? k : order[k]!;
    const code = codes[row]!;
    const place = places[code]!;
    sorted[place] = row;
    places[code] = place + 1;
  }
  return sorted;
}

/** One stratum, its rows by day; counts are filled in from the last event day back. */
function readStratum({ days, events, groups }: StratifiedDays, order: Int32Array): GroupRiskSets {
  const count = groups.labels.length;
  const { codes } = groups;
  const times = countEventDays(order, { days, events });
  const happened = new Float64Array(times * count);
  const atRisk = new Float64Array(times * count);
  const remaining = new Int32Array(count);
  let from = happened.length;
  for (let k = order.length - 1; k >= 0; ) {
    const day = days[order[k]!]!;
    let isTime = false;
    for (; k >= 0 && days[order[k]!] === day; k--) {
      const row = order[k]!;
      const group = codes[row]!;
      remaining[group] = remaining[group]! + 1;
      if (events[row] === 0) continue;
      if (!isTime) from -= count;
      isTime = true;
      happened[from + group] = happened[from + group]! + 1;
    }
    for (let g = 0; isTime && g < count; g++) atRisk[from + g] = remaining[g]!;
  }
  return { groups: count, times, events: happened, atRisk };
}

function countEventDays(
  order: Int32Array,
  { days, events }: Pick<StratifiedDays, "days" | "events">,
): number {
  let times = 0;
  let before = -1;
  for (let k = 0; k < order.length; k++) {
    const row = order[k]!;
    if (events[row] === 0 || days[row] === before) continue;
    before = days[row]!;
    times++;
  }
  return times;
}
