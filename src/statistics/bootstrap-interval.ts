/**
 * Confidence intervals from bootstrap replicates.
 *
 * Percentile: the quantiles at (1 - level) / 2 and its complement. BCa, bias-corrected and
 * accelerated (Efron, Journal of the American Statistical Association 1987;82:171): the quantiles
 * at
 *   Phi(w + (w + z) / (1 - a (w + z))),  z the normal quantile of either tail,
 * with w the normal quantile of the share of replicates below the estimate (those equal to it by
 * half) and a = sum d^3 / (6 (sum d^2)^(3/2)), d the jackknife mean less each jackknife value.
 * Quantiles are interpolated on the normal scale between order statistics (Davison and Hinkley
 * 1997, eq. 5.8).
 */
import { requireLevel } from "./argument-checks.ts";
import type { Bootstrap } from "./bootstrap.ts";
import { normalDeviate, normalLowerTail, normalQuantile } from "./distributions.ts";
import type { Interval } from "./interval.ts";

/** The share of resamples without a value beyond which there is no interval. */
const MOST_UNDEFINED = 1 / 20;

/** The percentile interval; null without replicates or where too many had no value. */
export function percentileInterval(result: Bootstrap, level = 0.95): Interval | null {
  requireLevel(level);
  const { replicates } = result;
  if (!isFair(result)) return null;
  const tail = (1 - level) / 2;
  return {
    lower: orderQuantile(replicates, tail),
    upper: orderQuantile(replicates, 1 - tail),
    level,
    method: "bootstrap percentile",
  };
}

/**
 * The BCa interval from the replicates and the jackknife values of the same sample; null where it
 * is not estimable: no replicates, too many without a value, or all on one side of the estimate.
 */
export function bcaInterval(
  result: Bootstrap,
  jackknifeValues: ArrayLike<number>,
  level = 0.95,
): Interval | null {
  requireLevel(level);
  const { estimate, replicates } = result;
  const bias = biasCorrection(replicates, estimate);
  const a = acceleration(jackknifeValues);
  const z = normalDeviate(level);
  if (!isFair(result) || !Number.isFinite(bias)) return null;
  const [lower, upper] = [-z, z].map((side) => {
    const shifted = bias + side;
    return orderQuantile(replicates, normalLowerTail(bias + shifted / (1 - a * shifted)));
  });
  return { lower: lower!, upper: upper!, level, method: "bootstrap BCa" };
}

/** w: 0 where half the replicates lie below the estimate; NaN without replicates. */
export function biasCorrection(replicates: ArrayLike<number>, estimate: number): number {
  let below = 0;
  for (let r = 0; r < replicates.length; r++) {
    if (replicates[r]! < estimate) below += 1;
    else if (replicates[r]! === estimate) below += 1 / 2;
  }
  return replicates.length === 0 ? Number.NaN : normalQuantile(below / replicates.length);
}

/** a: a sixth of the skewness of the jackknife; 0 where its values do not differ. */
export function acceleration(jackknifeValues: ArrayLike<number>): number {
  const values = Array.from(jackknifeValues);
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (mean - value) ** 2, 0);
  const cubes = values.reduce((sum, value) => sum + (mean - value) ** 3, 0);
  return squares > 0 ? cubes / (6 * squares ** 1.5) : 0;
}

function isFair({ replicates, undefinedReplicates }: Bootstrap): boolean {
  const most = MOST_UNDEFINED * (replicates.length + undefinedReplicates);
  return replicates.length > 0 && undefinedReplicates <= most;
}

/** The quantile at `p` of ascending replicates; the extremes where p is beyond them. */
function orderQuantile(ascending: Float64Array, p: number): number {
  const count = ascending.length;
  const k = Math.floor((count + 1) * p + 1e-9);
  if (k < 1) return ascending[0]!;
  if (k >= count) return ascending[count - 1]!;
  const low = normalQuantile(k / (count + 1));
  const high = normalQuantile((k + 1) / (count + 1));
  const share = Math.max(0, (normalQuantile(p) - low) / (high - low));
  return ascending[k - 1]! + share * (ascending[k]! - ascending[k - 1]!);
}
