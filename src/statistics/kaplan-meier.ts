/**
 * The Kaplan–Meier (product-limit) estimate of survival.
 *
 * S(t) is the product over event times u <= t of 1 - d(u) / n(u), with d events among n at risk
 * (Kaplan and Meier 1958). Its variance is Greenwood's (1926): S(t)^2 times the sum of
 * d / (n (n - d)). Conventions: at a tied time events come before censorings; an event at time 0
 * drops the curve at 0; the standard error is 0 before the first event and NaN, as the formula
 * leaves it undefined, once S is 0; limits there are stated in `survival-limits.ts`.
 */
import { requireLevel } from "./argument-checks.ts";
import { type EventTally, type FollowUp, tallyEvents } from "./event-tally.ts";
import { type SurvivalLimits, survivalLimits } from "./survival-limits.ts";

/** Weighted counts this close to everyone at risk are everyone: their sums carry rounding. */
const ALL = 1 - 1e-12;

export interface SurvivalCurve extends EventTally {
  /** Survival just after each distinct time of an event or a censoring. */
  readonly survival: Float64Array;
  /** Greenwood's standard error of `survival`. */
  readonly standardError: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly limits: SurvivalLimits;
  readonly level: number;
  /** How many rows the curve is made of. */
  readonly total: number;
  /** Patients at risk at each time, where limits are clustered by them. */
  readonly clustersAtRisk?: Float64Array;
}

export interface KaplanMeierInput extends FollowUp {
  /** The kind of confidence limits; log-log unless said. */
  readonly limits?: SurvivalLimits;
  /** Coverage of the limits; 0.95 unless said. */
  readonly level?: number;
}

/**
 * The curve, one element per distinct time; with no rows every column is empty.
 * Throws a RangeError or TypeError on a missing or negative time, or an event that is not 0 or 1.
 */
export function kaplanMeier(input: KaplanMeierInput): SurvivalCurve {
  const { limits = "log-log", level = 0.95 } = input;
  requireLevel(level);
  return productLimit(tallyEvents(input), { limits, level, total: input.time.length });
}

/** The product-limit estimate from counts already made. */
export function productLimit(
  tally: EventTally,
  { limits, level, total }: { limits: SurvivalLimits; level: number; total: number },
): SurvivalCurve {
  const limitsAt = survivalLimits(limits, level);
  const length = tally.time.length;
  const column = () => new Float64Array(length);
  const estimates = {
    survival: column(),
    standardError: column(),
    lower: column(),
    upper: column(),
  };
  let survival = 1;
  let sum = 0;
  let bounds = limitsAt({ survival, relativeError: 0, atRisk: 1 });
  for (let j = 0; j < length; j++) {
    const atRisk = tally.atRisk[j]!;
    const events = tally.events[j]!;
    // where all had failed before those who entered later did, nothing can change any more
    const isOver = survival === 0;
    if (events > 0) {
      survival = events >= atRisk * ALL ? 0 : survival * (1 - events / atRisk);
      sum += events / (atRisk * (atRisk - events));
    }
    const relativeError = Math.sqrt(sum);
    if (!isOver && (events > 0 || survival === 1))
      bounds = limitsAt({ survival, relativeError, atRisk });
    estimates.survival[j] = survival;
    estimates.standardError[j] = survival * relativeError;
    estimates.lower[j] = bounds[0];
    estimates.upper[j] = bounds[1];
  }
  return { ...tally, ...estimates, limits, level, total };
}
