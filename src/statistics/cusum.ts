/**
 * The cumulative sum that cannot fall below 0: S = max(0, S + increment), which signals where it
 * reaches its limit (Page, Biometrika 1954;41:100).
 */
import { requireBetween, requireNumbers } from "./argument-checks.ts";

export interface CusumPath {
  /** The sum after each increment. */
  readonly values: Float64Array;
  /** Positions of the increments at which the sum reached the limit. */
  readonly signals: readonly number[];
}

export interface CusumOptions {
  /** The limit, above 0; Infinity draws the path without signals. */
  readonly limit: number;
  /** Where the sum starts, and starts again: from 0 to below the limit. */
  readonly start?: number;
  /**
   * Whether the sum starts again after a signal (then each signal is its own); true unless said.
   */
  readonly restarts?: boolean;
}

/** The path over increments in the order of operation; with none it is empty. */
export function cusum(increments: ArrayLike<number>, options: CusumOptions): CusumPath {
  const { limit, start = 0, restarts = true } = options;
  requireNumbers("increments", increments);
  if (limit !== Infinity) requireBetween("limit", limit, 0, Infinity);
  if (!(start >= 0 && start < limit)) {
    throw new RangeError(`start is ${start}; expected a number from 0 to below the limit ${limit}`);
  }
  const signals: number[] = [];
  let sum = start;
  let hasSignalled = false;
  const values = new Float64Array(increments.length);
  for (let i = 0; i < values.length; i++) {
    if (hasSignalled && restarts) sum = start;
    const isAbove = hasSignalled && !restarts;
    sum = Math.max(0, sum + increments[i]!);
    hasSignalled = sum >= limit;
    if (hasSignalled && !isAbove) signals.push(i);
    values[i] = sum;
  }
  return { values, signals };
}
