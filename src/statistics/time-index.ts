/**
 * The distinct times of a follow-up column, and where each row falls among them.
 *
 * Whole days are indexed by a table of days, without sorting, so ties are exact. Other times are
 * sorted by their bits, and two neighbours that differ by less than 1.5e-8 of the mean time count as one
 * time (the first): 0.1 + 0.2 and 0.3 are the same day in another unit, and a tie broken by
 * rounding would change the risk sets.
 */
import { radixOrder } from "./radix-order.ts";
import { type WholeDays, wholeDays } from "./whole-days.ts";

export interface TimeIndex {
  /** The distinct times in ascending order. */
  readonly times: Float64Array;
  /** For each row the position of its time in `times`. */
  readonly position: Int32Array;
  /** Two times no further apart than this are one time; 0 for whole days. */
  readonly tolerance: number;
}

/** Two times closer than this share of the mean time are tied (the square root of 2^-52). */
const TIE = 2 ** -26;

/** Indexes finite times of 0 or more; anything else is refused with its row. */
export function indexTimes(time: ArrayLike<number>): TimeIndex {
  const whole = wholeDays(time);
  return whole === undefined ? indexContinuous(time) : indexWholeDays(whole);
}

/** The position of the last of the distinct times at or before `value`; -1 before the first. */
export function positionAtOrBefore(index: Omit<TimeIndex, "position">, value: number): number {
  const { times, tolerance } = index;
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (times[middle]! <= value + tolerance) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

function indexWholeDays({ days, last }: WholeDays): TimeIndex {
  const table = new Int32Array(last + 1);
  for (let i = 0; i < days.length; i++) table[days[i]!] = 1;
  const times = new Float64Array(last + 1);
  let kept = 0;
  for (let day = 0; day <= last; day++) {
    if (table[day] === 0) continue;
    table[day] = kept;
    times[kept++] = day;
  }
  const position = new Int32Array(days.length);
  for (let i = 0; i < days.length; i++) position[i] = table[days[i]!]!;
  return { times: times.slice(0, kept), position, tolerance: 0 };
}

function indexContinuous(time: ArrayLike<number>): TimeIndex {
  const values = new Float64Array(time);
  const order = radixOrder(values);
  const tolerance = tieTolerance(values);
  const times = new Float64Array(values.length);
  const position = new Int32Array(values.length);
  let kept = 0;
  let before = -Infinity;
  for (let k = 0; k < order.length; k++) {
    const value = values[order[k]!]!;
    if (value - before > tolerance) times[kept++] = value;
    before = value;
    position[order[k]!] = kept - 1;
  }
  return { times: times.slice(0, kept), position, tolerance };
}

/** The distance within which two of these times are one: a small share of their mean. */
function tieTolerance(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return values.length === 0 ? 0 : (TIE * sum) / values.length;
}
