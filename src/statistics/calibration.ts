/**
 * How far predicted probabilities agree with what happened.
 *
 * Brier score: the mean of (y - p)^2 (Brier 1950); scaled, 1 less its ratio to that of the overall share
 * for everyone. Calibration intercept: the b0 of logit P(y) = b0 + logit p, 0 when as many events happened
 * as were expected; calibration slope: the b of logit P(y) = a + b logit p, 1 when neither too extreme nor
 * too timid (Cox 1958; Steyerberg 2009). A model on its own data has 0 and 1 by construction. The score's
 * parts are in `brier-parts.ts`, a smooth curve in `calibration-curve.ts`.
 *
 * With some three events or more 95% limits of the intercept hold 0 in 94% of samples or more,
 * those of the slope hold 1 in 94% or more where it has an end (counted in the tables of real
 * coverage among the tests).
 */
import { readEvent, requireSameLength } from "./argument-checks.ts";
import { logisticRegression } from "./logistic-regression.ts";
import type { Coefficient } from "./regression-table.ts";

export interface BrierScore {
  readonly score: number;
  /** 1 is perfect, 0 no better than the overall share; null when nobody or everybody had the event. */
  readonly scaled: number | null;
}

/** The Brier score of predicted probabilities; null for no rows. */
export function brierScore(
  outcome: ArrayLike<number | boolean>,
  probability: ArrayLike<number>,
): BrierScore | null {
  const { events, rows } = readPredictions(outcome, probability);
  if (rows === 0) return null;
  const score = events.reduce((sum, y, i) => sum + (y - probability[i]!) ** 2, 0) / rows;
  const share = events.reduce((a, b) => a + b, 0) / rows;
  const uncertainty = share * (1 - share);
  return { score, scaled: uncertainty === 0 ? null : 1 - score / uncertainty };
}

export interface Calibration {
  readonly observed: number;
  readonly expected: number;
  readonly intercept: Coefficient;
  readonly slope: Coefficient;
  /** Whether predictions tell all rows apart, so that the slope has no end and its numbers mean nothing. */
  readonly isSeparated: boolean;
}

/**
 * Calibration of probabilities strictly between 0 and 1 that came from elsewhere; null where nobody or
 * everybody had the event.
 */
export function calibration(
  outcome: ArrayLike<number | boolean>,
  probability: ArrayLike<number>,
  level = 0.95,
): Calibration | null {
  const { events, rows } = readPredictions(outcome, probability);
  const observed = events.reduce((a, b) => a + b, 0);
  if (observed === 0 || observed === rows) return null;
  const logit = Float64Array.from({ length: rows }, (_, i) => logOdds(probability[i]!, i));
  const names = ["slope"];
  const large = logisticRegression({ outcome: events, covariates: [], offset: logit, level });
  const sloped = logisticRegression({ outcome: events, covariates: [logit], names, level });
  return {
    observed,
    expected: Array.from(probability).reduce((a, b) => a + b, 0),
    intercept: large.coefficients[0]!,
    slope: sloped.coefficients[1]!,
    isSeparated: sloped.infinite.length > 0,
  };
}

/** Outcomes as 0 and 1; refuses probabilities outside [0, 1] by row. */
export function readPredictions(
  outcome: ArrayLike<number | boolean>,
  probability: ArrayLike<number>,
): { events: Float64Array; rows: number } {
  requireSameLength({ outcome, probability });
  const rows = outcome.length;
  for (let i = 0; i < rows; i++) {
    const p = probability[i]!;
    if (!(p >= 0 && p <= 1)) {
      throw new RangeError(`probability[${i}] is ${p}; expected a number from 0 to 1`);
    }
  }
  return { events: Float64Array.from({ length: rows }, (_, i) => readEvent(outcome[i], i)), rows };
}

function logOdds(p: number, row: number): number {
  if (p <= 0 || p >= 1) {
    throw new RangeError(`probability[${row}] is ${p}; expected a number between 0 and 1`);
  }
  return Math.log(p / (1 - p));
}
