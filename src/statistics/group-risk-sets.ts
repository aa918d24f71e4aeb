/**
 * Events and numbers at risk by group at each event time, within each stratum: what every test
 * that compares survival between groups is made of.
 */
import { readEvent, requireSameLength } from "./argument-checks.ts";
import { entryPosition } from "./event-tally.ts";
import { gather, gatherWhole } from "./gather.ts";
import type { GroupCodes } from "./group-codes.ts";
import { indexTimes, lastWholeDay, type TimeIndex } from "./time-index.ts";

export interface GroupedFollowUp {
  readonly time: ArrayLike<number>;
  readonly event: ArrayLike<number | boolean>;
  readonly entry?: ArrayLike<number>;
  readonly groups: GroupCodes;
}

export interface GroupRiskSets {
  /** Number of groups. */
  readonly groups: number;
  /** Number of times: the distinct ones, or every day up to the last. */
  readonly times: number;
  /** events[j * groups + g]: events in group g at time j; likewise those at risk. */
  readonly events: Float64Array;
  readonly atRisk: Float64Array;
}

/** Counts by time and group for all rows together. */
export function groupRiskSets(followUp: GroupedFollowUp): GroupRiskSets {
  const { time, event, entry, groups } = followUp;
  requireSameLength({ time, event, entry, group: groups.codes });
  const { position, times, index } = placeTimes(time, entry !== undefined);
  const count = groups.labels.length;
  const { codes } = groups;
  // pairs of cells: censored, then events, of each group at each time
  const counts = new Float64Array(2 * times * count);
  for (let i = 0; i < time.length; i++) {
    const value = event[i];
    const isEvent = value === 1 || value === 0 ? value : readEvent(value, i);
    const cell = 2 * (position[i]! * count + codes[i]!) + isEvent;
    counts[cell] = counts[cell]! + 1;
  }
  const sets = splitCounts(counts, { times, groups: count });
  if (index !== undefined && entry !== undefined) subtractEntries(sets.atRisk, index, followUp);
  for (let cell = sets.atRisk.length - count - 1; cell >= 0; cell--) {
    sets.atRisk[cell] = sets.atRisk[cell]! + sets.atRisk[cell + count]!;
  }
  return sets;
}

/** Events, and (in `atRisk`) all those who leave, of each group at each time. */
function splitCounts(
  counts: Float64Array,
  { times, groups }: { times: number; groups: number },
): GroupRiskSets {
  const events = new Float64Array(times * groups);
  const atRisk = new Float64Array(times * groups);
  for (let cell = 0; cell < events.length; cell++) {
    const happened = counts[2 * cell + 1]!;
    events[cell] = happened;
    atRisk[cell] = counts[2 * cell]! + happened;
  }
  return { groups, times, events, atRisk };
}

/** The same for each stratum apart, in the order of the strata's labels. */
export function stratifiedRiskSets(
  followUp: GroupedFollowUp,
  strata: GroupCodes | undefined,
): GroupRiskSets[] {
  if (strata === undefined) return [groupRiskSets(followUp)];
  requireSameLength({ time: followUp.time, stratum: strata.codes });
  return rowsByCode(strata).map((rows) => groupRiskSets(rowsOf(followUp, rows)));
}

/** For each label the rows that carry it. */
export function rowsByCode({ labels, codes }: GroupCodes): Int32Array[] {
  const sizes = new Int32Array(labels.length);
  for (let i = 0; i < codes.length; i++) sizes[codes[i]!] = sizes[codes[i]!]! + 1;
  const rows = Array.from(sizes, (size) => new Int32Array(size));
  sizes.fill(0);
  for (let i = 0; i < codes.length; i++) {
    const code = codes[i]!;
    const filled = sizes[code]!;
    rows[code]![filled] = i;
    sizes[code] = filled + 1;
  }
  return rows;
}

/** Whole days are their own position, which spares a pass; other times are indexed. */
function placeTimes(time: ArrayLike<number>, isDelayed: boolean) {
  const lastDay = isDelayed ? -1 : lastWholeDay(time);
  if (lastDay >= 0) return { position: time, times: lastDay + 1, index: undefined };
  const index = indexTimes(time);
  return { position: index.position, times: index.times.length, index };
}

function rowsOf(followUp: GroupedFollowUp, rows: Int32Array): GroupedFollowUp {
  const { time, event, entry, groups } = followUp;
  const events = new Uint8Array(rows.length);
  for (let i = 0; i < rows.length; i++) events[i] = readEvent(event[rows[i]!], rows[i]!);
  return {
    time: gather(time, rows),
    event: events,
    ...(entry === undefined ? {} : { entry: gather(entry, rows) }),
    groups: { labels: groups.labels, codes: gatherWhole(groups.codes, rows) },
  };
}

function subtractEntries(leaving: Float64Array, index: TimeIndex, followUp: GroupedFollowUp): void {
  const { time, entry, groups } = followUp;
  for (let i = 0; i < time.length; i++) {
    const position = entryPosition(index, { entry: entry!, time, row: i });
    if (position < 0) continue;
    const cell = position * groups.labels.length + groups.codes[i]!;
    leaving[cell] = leaving[cell]! - 1;
  }
}
