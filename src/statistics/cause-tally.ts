/**
 * Counting with competing causes: at each distinct time how many rows were at risk, how many had an
 * event of each cause, and how many were censored. Conventions as in `event-tally.ts`: events come
 * before censorings on the same day, delayed entry is (entry, time], a weight of k is k rows.
 */
import { requireCount, requireSameLength } from "./argument-checks.ts";
import { entryPosition, readWeight } from "./event-tally.ts";
import { indexTimes } from "./time-index.ts";
import { type WholeDays, wholeDays } from "./whole-days.ts";

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
  const codes = cause instanceof Int32Array ? cause : new Int32Array(cause);
  const causes = countCauses(followUp, codes);
  const isPlain = entry === undefined && weight === undefined;
  const whole = isPlain ? wholeDays(time) : undefined;
  const isTabled = whole !== undefined && (whole.last + 1) * causes <= 16 * codes.length + 10_000;
  return isTabled ? tallyDays(whole, codes, causes) : tallyIndexed(followUp, codes, causes);
}

/** The common case: whole days, no weights, everyone observed from the start. */
function tallyDays({ days, last }: WholeDays, codes: Int32Array, causes: number): CauseTally {
  const width = causes + 1;
  const table = new Float64Array((last + 1) * width);
  for (let i = 0; i < days.length; i++) {
    const cell = days[i]! * width + codes[i]!;
    table[cell] = table[cell]! + 1;
  }
  const time = new Float64Array(last + 1);
  let kept = 0;
  for (let day = 0; day <= last; day++) {
    let leaving = 0;
    for (let cell = day * width; cell < (day + 1) * width; cell++) leaving += table[cell]!;
    if (leaving === 0) continue;
    time[kept] = day;
    table.copyWithin(kept * width, day * width, (day + 1) * width);
    kept++;
  }
  const atRisk = new Float64Array(kept);
  return columnsOf({ time: time.slice(0, kept), atRisk, counts: table, width });
}

function tallyIndexed(followUp: CauseFollowUp, codes: Int32Array, causes: number): CauseTally {
  const { time, entry, weight } = followUp;
  const index = indexTimes(time);
  const { position } = index;
  const width = causes + 1;
  const counts = new Float64Array(index.times.length * width);
  const atRisk = new Float64Array(index.times.length);
  for (let i = 0; i < codes.length; i++) {
    const cell = position[i]! * width + codes[i]!;
    counts[cell] = counts[cell]! + (weight === undefined ? 1 : readWeight(weight, i));
  }
  if (entry !== undefined) {
    for (let i = 0; i < time.length; i++) {
      const before = entryPosition(index, { entry, time, row: i });
      if (before >= 0) atRisk[before] = atRisk[before]! - readWeight(weight, i);
    }
  }
  return columnsOf({ time: index.times, atRisk, counts, width });
}

/** The counts (row by row, censorings first) as columns; `atRisk` comes in as entries, negative. */
function columnsOf(table: {
  time: Float64Array;
  atRisk: Float64Array;
  counts: Float64Array;
  width: number;
}): CauseTally {
  const { time, atRisk, counts, width } = table;
  accumulate(atRisk, counts, width);
  const column = (of: number) => {
    const values = new Float64Array(time.length);
    for (let j = 0; j < values.length; j++) values[j] = counts[j * width + of]!;
    return values;
  };
  const events = Array.from({ length: width - 1 }, (_, k) => column(k + 1));
  return { time, atRisk, censored: column(0), events };
}

/** Refuses what is no cause, and gives the number of causes. */
function countCauses({ cause, causes }: CauseFollowUp, codes: Int32Array): number {
  if (causes !== undefined) requireCount("causes", causes);
  let largest = 0;
  const most = causes ?? MOST_CAUSES;
  for (let i = 0; i < codes.length; i++) {
    const value = codes[i]!;
    if (value < 0 || value > most || value !== cause[i]) {
      const wanted = `a whole number from 0 (censored) to ${most}`;
      throw new RangeError(`cause[${i}] is ${cause[i]}; expected ${wanted}`);
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
