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
  /** Number of distinct event times. */
  readonly times: number;
  /** events[j * groups + g]: events in group g at time j; likewise those at risk. */
  readonly events: Float64Array;
  readonly atRisk: Float64Array;
}

/** Counts by event time and group for all rows together. */
export function groupRiskSets(followUp: GroupedFollowUp): GroupRiskSets {
  const { time, event, entry, groups } = followUp;
  requireSameLength({ time, event, entry, group: groups.codes });
  const { position, length, index } = placeTimes(time, entry !== undefined);
  const { place, times } = placeEvents(event, position, length);
  const count = groups.labels.length;
  const { codes } = groups;
  const events = new Float64Array(times * count);
  const atRisk = new Float64Array(times * count);
  for (let i = 0; i < time.length; i++) {
    const at = place[position[i]!]!;
    if (at < 0) continue;
    const cell = at * count + codes[i]!;
    atRisk[cell] = atRisk[cell]! + 1;
    const value = event[i];
    events[cell] = events[cell]! + (value === 1 || value === true ? 1 : 0);
  }
  if (index !== undefined) subtractEntries(atRisk, followUp, { index, place });
  for (let cell = atRisk.length - count - 1; cell >= 0; cell--) {
    atRisk[cell] = atRisk[cell]! + atRisk[cell + count]!;
  }
  return { groups: count, times, events, atRisk };
}

/** For each position the last event time at or before it, -1 when there is none; checks events. */
function placeEvents(
  event: ArrayLike<number | boolean>,
  position: ArrayLike<number>,
  length: number,
): { place: Int32Array; times: number } {
  const place = new Int32Array(length);
  for (let i = 0; i < event.length; i++) {
    const value = event[i];
    const isEvent = value === 1 || value === 0 ? value : readEvent(value, i);
    const at = position[i]!;
    place[at] = place[at]! | isEvent;
  }
  let times = 0;
  for (let j = 0; j < length; j++) {
    times += place[j]!;
    place[j] = times - 1;
  }
  return { place, times };
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
  if (lastDay >= 0) return { position: time, length: lastDay + 1, index: undefined };
  const index = indexTimes(time);
  return { position: index.position, length: index.times.length, index };
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

/** Takes those who enter late out of the event times at or before their entry. */
function subtractEntries(
  atRisk: Float64Array,
  { time, entry, groups }: GroupedFollowUp,
  { index, place }: { index: TimeIndex; place: Int32Array },
): void {
  if (entry === undefined) return;
  for (let i = 0; i < time.length; i++) {
    const position = entryPosition(index, { entry, time, row: i });
    const at = position < 0 ? -1 : place[position]!;
    if (at < 0) continue;
    const cell = at * groups.labels.length + groups.codes[i]!;
    atRisk[cell] = atRisk[cell]! - 1;
  }
}
