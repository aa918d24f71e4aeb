/**
 * The completeness index of follow-up: person-time observed over person-time that could have been
 * observed by a closing date (Clark, Altman and De Stavola, Lancet 2002;359:1309).
 *
 * A row that had the event (or left for another accepted reason) could have been observed only up to
 * it, so its possible time is its observed time; for all others it is the time to the closing date.
 */
import { readEvent, requireNumbers, requireSameLength } from "./argument-checks.ts";

export interface CompletenessIndex {
  readonly observed: number;
  readonly possible: number;
  /** observed / possible, in [0, 1]. */
  readonly index: number;
}

/**
 * The index from `time` observed, whether the row ended with an `event`, and the `possible` time;
 * time observed beyond the possible is not counted. Null when no time was possible.
 */
export function completenessIndex(
  time: ArrayLike<number>,
  event: ArrayLike<number | boolean>,
  possible: ArrayLike<number>,
): CompletenessIndex | null {
  requireSameLength({ time, event, possible });
  requireNumbers("time", time, 0);
  requireNumbers("possible", possible, 0);
  let observedSum = 0;
  let possibleSum = 0;
  for (let i = 0; i < time.length; i++) {
    const observed = Math.min(time[i]!, possible[i]!);
    observedSum += observed;
    possibleSum += readEvent(event[i], i) === 1 ? observed : possible[i]!;
  }
  if (possibleSum === 0) return null;
  return { observed: observedSum, possible: possibleSum, index: observedSum / possibleSum };
}
