/**
 * Counting with competing causes: at each distinct time how many rows were at risk, how many had an
 * event of each cause, and how many were censored. Conventions as in `event-tally.ts`: events come
 * before censorings on the same day, delayed entry is (entry, time], a weight of k is k rows.
 */
import { requireSameLength } from "./argument-checks.ts";
import { entryPosition, readWeight } from "./event-tally.ts";
import { indexTimes } from "./time-index.ts";

export interface CauseFollowUp {
  /** Follow-up of each row, finite and 0 or more. */
  readonly time: ArrayLike<number>;
  /** 0 where the row was censored, otherwise the number of its cause, 1, 2, 3, ... */
  readonly cause: ArrayLike<number>;
  /** How many causes there are; the largest number in `cause` unless said. */
  readonly causes?: number;
  readonly entry?: ArrayLike<number>;
  readonly weight?: ArrayLike<number>;
}

export interface CauseTally {
  readonly time: Float64Array;
  readonly atRisk: Float64Array;
  readonly censored: Float64Array;
  /** events[k]: events of cause k + 1 at each time. */
  readonly events: readonly Float64Array[];
}

const MOST_CAUSES = 1000;

/** Counts rows at risk, censorings and events of each cause at each distinct time. */
export function tallyCauses(followUp: CauseFollowUp): CauseTally {
  const { time, cause, entry, weight } = followUp;
  requireSameLength({ time, cause, entry, weight });
  const causes = countCauses(followUp);
  const index = indexTimes(time);
  const length = index.times.length;
  const { position } = index;
  const counts = new Float64Array(length * (causes + 1));
  for (let i = 0; i < time.length; i++) {
    const cell = position[i]! * (causes + 1) + cause[i]!;
    counts[cell] = counts[cell]! + (weight === undefined ? 1 : readWeight(weight, i));
  }
  const atRisk = new Float64Array(length);
  if (entry !== undefined) {
    for (let i = 0; i < time.length; i++) {
      const before = entryPosition(index, { entry, time, row: i });
      if (before >= 0) atRisk[before] = atRisk[before]! - readWeight(weight, i);
    }
  }
  accumulate(atRisk, counts, causes + 1);
  const events = Array.from({ length: causes }, (_, k) => columnOf(counts, k + 1, causes + 1));
  return { time: index.times, atRisk, censored: columnOf(counts, 0, causes + 1), events };
}

function columnOf(counts: Float64Array, column: number, width: number): Float64Array {
  const values = new Float64Array(counts.length / width);
  for (let j = 0; j < values.length; j++) values[j] = counts[j * width + column]!;
  return values;
}

/** Refuses what is no cause, and gives the number of causes. */
function countCauses({ cause, causes }: CauseFollowUp): number {
  let largest = 0;
  const most = causes ?? MOST_CAUSES;
  for (let i = 0; i < cause.length; i++) {
    const value = cause[i]!;
    if (!(value >= 0 && value <= most && value === Math.floor(value))) {
      const wanted = `a whole number from 0 (censored) to ${most}`;
      throw new RangeError(`cause[${i}] is ${value}; expected ${wanted}`);
    }
    if (value > largest) largest = value;
  }
  return causes ?? Math.max(1, largest);
}

/** Turns entries (as negative numbers) into numbers at risk, backwards over the times. */
function accumulate(atRisk: Float64Array, counts: Float64Array, width: number): void {
  let remaining = 0;
  for (let j = atRisk.length - 1; j >= 0; j--) {
    remaining += atRisk[j]!;
    for (let cell = j * width; cell < (j + 1) * width; cell++) remaining += counts[cell]!;
    atRisk[j] = remaining;
  }
}
