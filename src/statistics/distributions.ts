/**
 * The distributions used by every statistic, and the one door to the library that has them.
 *
 * Upper tails are computed as such, never as one minus a lower tail, so that a probability of
 * 1e-40 does not become 0. The normal, beta, binomial and hypergeometric distributions are the
 * library's; the chi-square and Poisson ones are built on `incomplete-gamma.ts`, because the
 * library's incomplete gamma function is inaccurate at shapes above 900 or so.
 */
import betaCdf from "@stdlib/stats-base-dists-beta-cdf";
import betaQuantileOf from "@stdlib/stats-base-dists-beta-quantile";
import binomialPmf from "@stdlib/stats-base-dists-binomial-pmf";
import hypergeometricLogPmf from "@stdlib/stats-base-dists-hypergeometric-logpmf";
import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import normalQuantileOf from "@stdlib/stats-base-dists-normal-quantile";
import { gammaLowerTail, gammaUpperTail } from "./incomplete-gamma.ts";

/** The quantile of the standard normal distribution at probability `p`. */
export function normalQuantile(p: number): number {
  return p > 0.5 ? -lowerNormalQuantile(1 - p) : lowerNormalQuantile(p);
}

/** The z that leaves (1 - level) / 2 in each tail: 1.959963985 at 0.95. */
export function normalDeviate(level: number): number {
  return -lowerNormalQuantile((1 - level) / 2);
}

/**
 * The quantile at p <= 1/2. The library's loses digits below 1e-10 and is -Infinity below 1e-17, so
 * it is only a start for Newton's method on ln p, in which the lower tail is nearly a parabola.
 */
function lowerNormalQuantile(p: number): number {
  if (!(p > 0)) return p === 0 ? -Infinity : Number.NaN;
  let z = p < 1e-10 ? -Math.sqrt(-2 * Math.log(p)) : normalQuantileOf(p, 0, 1);
  for (let step = 0; step < 8; step++) {
    const lower = normalCdf(z, 0, 1);
    const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
    const move = (Math.log(lower / p) * lower) / density;
    z -= move;
    if (Math.abs(move) <= 1e-15 * Math.abs(z)) break;
  }
  return z;
}

/** P(Z <= z) for a standard normal Z. */
export function normalLowerTail(z: number): number {
  return normalCdf(z, 0, 1);
}

/** P(|Z| >= |z|) for a standard normal Z. */
export function normalTwoSided(z: number): number {
  return Math.min(1, 2 * normalCdf(-Math.abs(z), 0, 1));
}

/** P(X >= x) for chi-square on `df` degrees of freedom; on 0 degrees it is 1. */
export function chiSquareUpperTail(x: number, df: number): number {
  return df === 0 ? 1 : gammaUpperTail(df / 2, Math.max(0, x) / 2);
}

/** P(X <= x) for a beta variable with shapes a, b > 0. */
export function betaLowerTail(x: number, a: number, b: number): number {
  return betaCdf(x, a, b);
}

/** The quantile of the beta distribution with shapes a, b > 0. */
export function betaQuantile(p: number, a: number, b: number): number {
  return betaQuantileOf(p, a, b);
}

/** P(X = k) for X binomial (n, p). */
export function binomialProbability(k: number, n: number, p: number): number {
  return binomialPmf(k, n, p);
}

/** P(X <= k) for X binomial (n, p). */
export function binomialLowerTail(k: number, n: number, p: number): number {
  if (k < 0) return 0;
  return k >= n ? 1 : betaCdf(1 - p, n - k, k + 1);
}

/** P(X >= k) for X binomial (n, p). */
export function binomialUpperTail(k: number, n: number, p: number): number {
  if (k <= 0) return 1;
  return k > n ? 0 : betaCdf(p, k, n - k + 1);
}

/** ln P(X = k) where `draws` are taken of `total`, `marked` of which are marked. */
export function hypergeometricLogProbability(
  k: number,
  { total, marked, draws }: { total: number; marked: number; draws: number },
): number {
  return hypergeometricLogPmf(k, total, marked, draws);
}

/** P(X <= k) for X Poisson with the given mean. */
export function poissonLowerTail(k: number, mean: number): number {
  return k < 0 ? 0 : gammaUpperTail(k + 1, mean);
}

/** P(X >= k) for X Poisson with the given mean. */
export function poissonUpperTail(k: number, mean: number): number {
  return k <= 0 ? 1 : gammaLowerTail(k, mean);
}
