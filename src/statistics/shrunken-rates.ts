/**
 * Failure rates of units drawn towards their mean, each by as much as its own numbers are few
 * (empirical Bayes under the beta-binomial model).
 *
 * Given x of n failed, a unit's true rate has the beta distribution with shapes alpha + x and
 * beta + n - x: its mean is the shrunken rate, its quantiles the limits. The uncertainty of alpha
 * and beta themselves is left out, so that with few units the limits are somewhat too narrow
 * (Morris, Journal of the American Statistical Association 1983;78:47).
 *
 * Of ten units that truly differ a little (intraclass correlation 0.02) the 95% limits, where the
 * model finds that they differ, hold a unit's true rate in 84 to 96%; of units that do not differ
 * in 80 to 98% (counted in the tables of real coverage among the tests). Wilson's limits of a
 * unit's own rate hold it in 92% or more.
 */
import { requireLevel, requirePartOfWhole } from "./argument-checks.ts";
import type { BetaBinomial } from "./beta-binomial.ts";
import { betaQuantile } from "./distributions.ts";
import type { Part } from "./two-by-two.ts";

export interface ShrunkenRate {
  /** Failed over total; null without eyes. */
  readonly raw: number | null;
  readonly shrunken: number;
  /** Limits of the true rate; null where the model has no difference between units. */
  readonly limits: { readonly lower: number; readonly upper: number } | null;
  /** The weight of the unit's own rate, n / (n + alpha + beta); the mean has the rest. */
  readonly ownWeight: number;
}

/** The shrunken rate of each unit under a fitted model, with limits at `level`. */
export function shrunkenRates(
  units: readonly Part[],
  model: BetaBinomial,
  level = 0.95,
): ShrunkenRate[] {
  requireLevel(level);
  return units.map((unit) => shrink(unit, model, level));
}

/** The shapes of the beta distribution of a unit's true rate, given its failures. */
export function rateBelief(unit: Part, model: BetaBinomial): { alpha: number; beta: number } {
  requirePartOfWhole(unit.failed, unit.total);
  return { alpha: model.alpha + unit.failed, beta: model.beta + unit.total - unit.failed };
}

function shrink(unit: Part, model: BetaBinomial, level: number): ShrunkenRate {
  const { alpha, beta } = rateBelief(unit, model);
  const raw = unit.total === 0 ? null : unit.failed / unit.total;
  if (model.intraclass === 0) return { raw, shrunken: model.mean, limits: null, ownWeight: 0 };
  const tail = (1 - level) / 2;
  return {
    raw,
    shrunken: alpha / (alpha + beta),
    limits: {
      lower: betaQuantile(tail, alpha, beta),
      upper: 1 - betaQuantile(tail, beta, alpha),
    },
    ownWeight: unit.total / (alpha + beta),
  };
}
