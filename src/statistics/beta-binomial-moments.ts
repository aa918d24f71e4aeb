/**
 * The beta-binomial model by moments, and the correlation of eyes within a unit by analysis of
 * variance: closed forms that need no iteration.
 *
 * Moments with weights n (Kleinman, Journal of the American Statistical Association 1973;68:46):
 * p = sum x / N, S = sum n (x / n - p)^2 and, for k units,
 *   intraclass = (S / (p (1 - p)) - (k - 1)) / (sum n (1 - n / N) - (k - 1)),
 * taken as 0 where it is negative. Analysis of variance (Ridout, Demetrio and Firth, Biometrics
 * 1999;55:137): (MSB - MSW) / (MSB + (m - 1) MSW) with m = (N - sum n^2 / N) / (k - 1), which may
 * be negative.
 */
import { requirePartOfWhole } from "./argument-checks.ts";
import { type BetaBinomial, modelOf } from "./beta-binomial.ts";
import type { Part } from "./two-by-two.ts";

/**
 * The model by moments; units without eyes take no part. Null, not estimable, where none or all
 * failed, under two units, where every unit has one eye, and where the correlation would be 1.
 */
export function betaBinomialMoments(units: readonly Part[]): BetaBinomial | null {
  const { count, total, failed, squares, shares } = sumsOf(units);
  const mean = failed / total;
  const spread = total - squares / total - (count - 1);
  if (!(count >= 2 && failed > 0 && failed < total && spread > 0)) return null;
  const between = shares - (failed * failed) / total;
  const intraclass = (between / (mean * (1 - mean)) - (count - 1)) / spread;
  if (intraclass >= 1) return null;
  return modelOf(mean, Math.max(0, intraclass / (1 - intraclass)));
}

/**
 * The correlation by analysis of variance, for example of both eyes of a patient; null where it is
 * not estimable (as above, save that it may be 1).
 */
export function intraclassCorrelation(units: readonly Part[]): number | null {
  const { count, total, failed, squares, shares } = sumsOf(units);
  if (!(count >= 2 && total > count && failed > 0 && failed < total)) return null;
  const between = (shares - (failed * failed) / total) / (count - 1);
  const within = (failed - shares) / (total - count);
  const size = (total - squares / total) / (count - 1);
  return (between - within) / (between + (size - 1) * within);
}

/** Sums over units with any eyes: how many, of n, of x, of n^2 and of x^2 / n. */
function sumsOf(units: readonly Part[]) {
  for (const unit of units) requirePartOfWhole(unit.failed, unit.total);
  const filled = units.filter((unit) => unit.total > 0);
  const sum = (of: (unit: Part) => number) => filled.reduce((a, unit) => a + of(unit), 0);
  return {
    count: filled.length,
    total: sum((unit) => unit.total),
    failed: sum((unit) => unit.failed),
    squares: sum((unit) => unit.total ** 2),
    shares: sum((unit) => unit.failed ** 2 / unit.total),
  };
}
