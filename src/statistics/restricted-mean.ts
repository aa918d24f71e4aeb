/**
 * The restricted mean survival time: the area under the survival curve up to a horizon, the time
 * an eye can expect to stay free of the event within it.
 *
 * Variance: the sum over event times t up to the horizon of [area from t to the horizon]^2
 * d / (n (n - d)), the last term 0 where everyone at risk had the event (Irwin 1949; Klein and
 * Moeschberger 2003, section 4.5). Not estimable, null, when the curve ends above 0 before the
 * horizon. Where nobody had the event before the horizon the variance is 0 and would claim certainty: the
 * limits are then the horizon, and the horizon times the curve's lower limit there, above which the whole
 * curve lies (events at the horizon itself are too late to count). With under some 15 events 95% limits
 * hold the true mean in as few as 89% of samples (counted in the tables of real coverage among the tests).
 */
import { requireLevel } from "./argument-checks.ts";
import { normalDeviate, normalTwoSided } from "./distributions.ts";
import type { Interval } from "./interval.ts";
import type { SurvivalCurve } from "./kaplan-meier.ts";
import { survivalAt } from "./survival-at.ts";

export interface RestrictedMean extends Interval {
  readonly estimate: number;
  readonly standardError: number;
  readonly horizon: number;
}

/** The restricted mean up to `horizon` in the unit of the curve's times; null: not estimable. */
export function restrictedMean(curve: SurvivalCurve, horizon: number): RestrictedMean | null {
  if (!(horizon > 0 && horizon < Infinity)) {
    throw new RangeError(`the horizon is ${horizon}; expected a finite number above 0`);
  }
  const last = curve.time.length - 1;
  const margin = 1e-9 * horizon;
  if (last < 0 || (curve.time[last]! < horizon - margin && curve.survival[last]! > 0)) return null;
  const { estimate, variance } = areaToHorizon(curve, horizon);
  const mean = withLimits({ estimate, standardError: Math.sqrt(variance), horizon }, curve.level);
  const end = survivalAt(curve, horizon);
  if (end === null || mean.standardError > margin || estimate < horizon - margin) return mean;
  const least = end.estimate === 1 ? end.lower : ((1 - curve.level) / 2) ** (1 / end.atRisk);
  return { ...mean, lower: horizon * least, method: "exact limits before the first event" };
}

export interface RestrictedMeanDifference extends RestrictedMean {
  /** The difference over its standard error. */
  readonly z: number;
  readonly pValue: number;
}

/** Restricted mean of `first` less that of `second`, independent groups; null: not estimable. */
export function restrictedMeanDifference(
  first: SurvivalCurve,
  second: SurvivalCurve,
  { horizon, level = 0.95 }: { horizon: number; level?: number },
): RestrictedMeanDifference | null {
  requireLevel(level);
  const one = restrictedMean(first, horizon);
  const two = restrictedMean(second, horizon);
  if (one === null || two === null) return null;
  const estimate = one.estimate - two.estimate;
  const standardError = Math.hypot(one.standardError, two.standardError);
  const z = standardError === 0 ? (estimate === 0 ? 0 : Infinity) : estimate / standardError;
  const limits = withLimits({ estimate, standardError, horizon }, level);
  return { ...limits, z, pValue: normalTwoSided(z) };
}

function areaToHorizon(curve: SurvivalCurve, horizon: number) {
  let estimate = 0;
  let variance = 0;
  let until = horizon;
  for (let j = curve.time.length - 1; j >= 0; j--) {
    const time = curve.time[j]!;
    if (time >= until) continue;
    estimate += curve.survival[j]! * (until - time);
    until = time;
    const surviving = curve.atRisk[j]! - curve.events[j]!;
    if (curve.survival[j]! === 0) continue;
    variance += (estimate ** 2 * curve.events[j]!) / (curve.atRisk[j]! * surviving);
  }
  return { estimate: estimate + until, variance };
}

function withLimits(
  part: { estimate: number; standardError: number; horizon: number },
  level: number,
): RestrictedMean {
  const width = normalDeviate(level) * part.standardError;
  const method = "normal limits of the restricted mean";
  return { ...part, lower: part.estimate - width, upper: part.estimate + width, level, method };
}
