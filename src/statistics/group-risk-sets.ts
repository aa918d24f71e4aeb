/**
 * Events and numbers at risk by group at each event time: what every test that compares survival
 * between groups is made of. Conventions as in `event-tally.ts`.
 */
import { entryPosition } from "./event-tally.ts";
import { type GroupCodes, groupSizes } from "./group-codes.ts";
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
  /** Rows of each group. */
  readonly subjects: ArrayLike<number>;
  /**
   * For each event time first the numbers at risk by group, then the events by group: those at risk in group g
   * at time j are at (2 j) groups + g, the events at (2 j + 1) groups + g.
   */
  readonly counts: Int32Array;
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
  const counts = new Int32Array(2 * times * count);
  for (let i = 0; i < position.length; i++) {
    const at = place[position[i]!]!;
    if (at < 0) continue;
    const cell = (2 * at + event[i]!) * count + codes[i]!;
    counts[cell] = counts[cell]! + 1;
  }
  subtractEntries(counts, rows, { index, place });
  accumulateAtRisk(counts, new Int32Array(count));
  return { groups: count, subjects: groupSizes(groups), counts };
}

/**
 * Turns counts of those who leave at each time, without the event and with it, into those at risk and the
 * events at each event time, in place: what is written ends where the counts end, and starts no
 * earlier than what is still to be read. `subjects` gets the number of rows of each group.
 */
export function accumulateAtRisk(counts: Int32Array, subjects: Int32Array): Int32Array {
  const groups = subjects.length;
  const width = 2 * groups;
  let from = counts.length;
  for (let start = counts.length - width; start >= 0; start -= width) {
    // written whether or not an event happened, and then written over where none did
    const into = from - width;
    let happened = 0;
    for (let g = 0; g < groups; g++) {
      const events = counts[start + groups + g]!;
      const atRisk = subjects[g]! + counts[start + g]! + events;
      happened |= events;
      subjects[g] = atRisk;
      counts[into + g] = atRisk;
      counts[into + groups + g] = events;
    }
    if (happened !== 0) from = into;
  }
  return counts.subarray(from);
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
  counts: Int32Array,
  { time, entry, groups }: CheckedRows,
  { index, place }: { index: TimeIndex; place: Int32Array },
): void {
  if (entry === undefined) return;
  for (let i = 0; i < time.length; i++) {
    const position = entryPosition(index, { entry, time, row: i });
    const at = position < 0 ? -1 : place[position]!;
    if (at < 0) continue;
    const cell = 2 * at * groups.labels.length + groups.codes[i]!;
    counts[cell] = counts[cell]! - 1;
  }
}
