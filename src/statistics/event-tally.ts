/**
 * Counting, the first half of every survival estimate: at each distinct time, how many rows were
 * at risk, how many had the event and how many were censored. The estimate is the second half.
 *
 * Conventions: at a tied time events come before censorings, so a row censored on a day is still
 * at risk on that day. With delayed entry a row is at risk in (entry, time]; an entry of 0 means
 * observed from the start, day 0 included. A weight of k counts as k rows. (Kaplan and Meier 1958
 * for the order on a tied day; Klein and Moeschberger 2003, section 4.6, for late entry.)
 */
import { refuseNumber, requireSameLength } from "./argument-checks.ts";
import { indexTimes, positionAtOrBefore, type TimeIndex } from "./time-index.ts";
import { eventBytes, type WholeDays, wholeDays } from "./whole-days.ts";

export interface FollowUp {
  /** Follow-up of each row, finite and 0 or more, in any one unit. */
  readonly time: ArrayLike<number>;
  /** 1 or true where the event happened at that time, 0 or false where the row was censored. */
  readonly event: ArrayLike<number | boolean>;
  /** Time at which each row came under observation, before its `time`; absent means from 0. */
  readonly entry?: ArrayLike<number>;
  /** Case weight of each row, above 0; absent means 1. */
  readonly weight?: ArrayLike<number>;
}

/** Parallel columns over the distinct times, ascending. */
export interface EventTally {
  readonly time: Float64Array;
  readonly atRisk: Float64Array;
  readonly events: Float64Array;
  readonly censored: Float64Array;
}

/** Counts rows at risk, events and censorings at each distinct time. */
export function tallyEvents(followUp: FollowUp): EventTally {
  const { time, event, entry, weight } = followUp;
  requireSameLength({ time, event, entry, weight });
  if (entry === undefined && weight === undefined) {
    const whole = wholeDays(time);
    if (whole !== undefined) return tallyWholeDays(whole, eventBytes(event));
  }
  return tallyIndexed(followUp, indexTimes(time));
}

/** The common case: whole days, no weights, everyone observed from the start. */
function tallyWholeDays({ days, last }: WholeDays, events: Uint8Array): EventTally {
  const byDay = countByDay(days, events, last);
  let distinct = 0;
  for (let cell = 0; cell < byDay.length; cell += 2) {
    if (byDay[cell]! + byDay[cell + 1]! > 0) distinct++;
  }
  const tally = emptyTally(new Float64Array(distinct));
  let row = 0;
  for (let day = 0; day <= last; day++) {
    if (byDay[2 * day]! + byDay[2 * day + 1]! === 0) continue;
    tally.time[row] = day;
    tally.censored[row] = byDay[2 * day]!;
    tally.events[row++] = byDay[2 * day + 1]!;
  }
  return accumulateAtRisk(tally);
}

/** Two counts for each day: its censorings, then its events. */
function countByDay(days: Int32Array, events: Uint8Array, last: number): Int32Array {
  const byDay = new Int32Array(2 * last + 2);
  const even = days.length & ~1;
  for (let i = 0; i < even; i += 2) {
    const cell = 2 * days[i]! + events[i]!;
    const next = 2 * days[i + 1]! + events[i + 1]!;
    byDay[cell] = byDay[cell]! + 1;
    byDay[next] = byDay[next]! + 1;
  }
  if (even < days.length) {
    const cell = 2 * days[even]! + events[even]!;
    byDay[cell] = byDay[cell]! + 1;
  }
  return byDay;
}

function tallyIndexed({ time, event, entry, weight }: FollowUp, index: TimeIndex): EventTally {
  const tally = emptyTally(index.times);
  const entering = new Float64Array(index.times.length);
  const isEvent = eventBytes(event);
  for (let i = 0; i < time.length; i++) {
    const position = index.position[i]!;
    const counted = weight === undefined ? 1 : readWeight(weight, i);
    const column = isEvent[i] === 1 ? tally.events : tally.censored;
    column[position] = column[position]! + counted;
    const before = entry === undefined ? -1 : entryPosition(index, { entry, time, row: i });
    if (before >= 0) entering[before] = entering[before]! + counted;
  }
  return accumulateAtRisk(tally, entering);
}

/** A row's weight: 1 when there are none; refused unless finite and above 0. */
export function readWeight(weight: ArrayLike<number> | undefined, row: number): number {
  if (weight === undefined) return 1;
  const value = weight[row]!;
  if (!(value > 0 && value < Infinity)) {
    if (typeof value !== "number") refuseNumber(`weight[${row}]`, value, 0);
    throw new RangeError(`weight[${row}] is ${value}; expected a finite number above 0`);
  }
  return value;
}

/**
 * The last distinct time at which a row is not yet at risk; -1 when it is at risk from the start.
 * Refuses an entry that is missing or not before the row's time. `at` is the row's place in the index,
 * where that is of some rows alone.
 */
export function entryPosition(
  index: TimeIndex,
  { entry, time, row, at = row }: EntryOfRow,
): number {
  const from = entry[row]!;
  if (!(from >= -Infinity && from < Infinity)) refuseNumber(`entry[${row}]`, from, -Infinity);
  if (from <= 0) return -1;
  const position = positionAtOrBefore(index, from);
  if (position >= index.position[at]!) {
    throw new RangeError(`entry[${row}] is ${from}; expected a time before ${time[row]!}`);
  }
  return position;
}

interface EntryOfRow {
  readonly entry: ArrayLike<number>;
  readonly time: ArrayLike<number>;
  readonly row: number;
  readonly at?: number;
}

function emptyTally(time: Float64Array): EventTally {
  const length = time.length;
  const column = () => new Float64Array(length);
  return { time, atRisk: column(), events: column(), censored: column() };
}

/** Fills `atRisk` backwards: those who leave at or after a time, less those yet to enter. */
function accumulateAtRisk(tally: EventTally, entering?: Float64Array): EventTally {
  let atRisk = 0;
  for (let j = tally.time.length - 1; j >= 0; j--) {
    if (entering !== undefined) atRisk -= entering[j]!;
    atRisk += tally.events[j]! + tally.censored[j]!;
    tally.atRisk[j] = atRisk;
  }
  return tally;
}
