/**
 * Events and numbers at risk by group at each event time: what every test that compares survival
 * between groups is made of. Conventions as in `event-tally.ts`.
 */
import { entryPosition } from "./event-tally.ts";
import type { GroupCodes } from "./group-codes.ts";
import { indexTimes, type TimeIndex } from "./time-index.ts";

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

/** Follow-up whose events are known to be 1 or 0. */
export interface CheckedRows extends GroupedFollowUp {
  readonly event: Uint8Array;
}

/** Counts by event time and group for times of any kind. */
export function groupRiskSets(rows: CheckedRows): GroupRiskSets {
  const { time, event, groups } = rows;
  const index = indexTimes(time);
  const { position } = index;
  const { place, times } = placeEvents(event, position, index.times.length);
  const count = groups.labels.length;
  const { codes } = groups;
  const events = new Float64Array(times * count);
  const atRisk = new Float64Array(times * count);
  for (let i = 0; i < position.length; i++) {
    const at = place[position[i]!]!;
    if (at < 0) continue;
    const cell = at * count + codes[i]!;
    atRisk[cell] = atRisk[cell]! + 1;
    events[cell] = events[cell]! + event[i]!;
  }
  subtractEntries(atRisk, rows, { index, place });
  for (let cell = atRisk.length - count - 1; cell >= 0; cell--) {
    atRisk[cell] = atRisk[cell]! + atRisk[cell + count]!;
  }
  return { groups: count, times, events, atRisk };
}

/** For each position the last event time at or before it, -1 when there is none. */
function placeEvents(
  event: Uint8Array,
  position: Int32Array,
  length: number,
): { place: Int32Array; times: number } {
  const place = new Int32Array(length);
  for (let i = 0; i < event.length; i++) {
    const at = position[i]!;
    place[at] = place[at]! | event[i]!;
  }
  let times = 0;
  for (let j = 0; j < length; j++) {
    times += place[j]!;
    place[j] = times - 1;
  }
  return { place, times };
}

/** Takes those who enter late out of the event times at or before their entry. */
function subtractEntries(
  atRisk: Float64Array,
  { time, entry, groups }: CheckedRows,
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
