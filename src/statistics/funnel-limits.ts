/**
 * Control limits of a funnel plot around a target, exact and interpolated (Spiegelhalter,
 * Statistics in Medicine 2005;24:1185, appendix).
 *
 * For a probability P, r is the smallest count with P(R <= r) > P, and the limit is r - a with a
 * = (P(R <= r) - P) / P(R = r), over the number of eyes, or over the expected count for a ratio.
 * Where no failure at all is no rare outcome there is no lower limit: nobody could lie below it.
 * Likewise upwards, where all failing is no rare outcome. Such a limit is drawn at the end of the
 * scale and flags nobody. The interpolated upper limit lies up to one failure under the first
 * count that is as rare as the level says, so the exact test (`countTest`) belongs beside any unit
 * found outside.
 *
 * Where the rate is the target, 3 to 8% of units of 20 to 500 eyes lie outside 95% limits (8% where
 * one failure is expected, 5.3% or fewer from 20), and under limits of a ratio fewer still where
 * risks are high; the exact test is wrong in 5% or fewer (counted in the tables of real coverage
 * among the tests).
 */
import { refuseNumber, requireBetween, requireCount, requireLevel } from "./argument-checks.ts";
import { binomialCounts, poissonCounts } from "./count-distributions.ts";
import type { CountDistribution } from "./count-test.ts";

export interface FunnelLimits {
  readonly lower: number;
  readonly upper: number;
  /** Whether anything can lie below `lower`, and above `upper`. */
  readonly hasLower: boolean;
  readonly hasUpper: boolean;
  readonly level: number;
}

/** Limits of the share failed of `total` eyes around the share `target`; null for no eyes. */
export function proportionFunnelLimits(
  target: number,
  total: number,
  level = 0.95,
): FunnelLimits | null {
  requireBetween("target", target, 0, 1);
  requireCount("total", total);
  requireLevel(level);
  return total === 0 ? null : limitsOf(binomialCounts(total, target), total, level);
}

/** Limits of observed over expected around 1, where `expected` were expected; null for 0. */
export function ratioFunnelLimits(expected: number, level = 0.95): FunnelLimits | null {
  if (!(expected >= 0 && expected < Infinity)) refuseNumber("expected", expected, 0);
  requireLevel(level);
  return expected === 0 ? null : limitsOf(poissonCounts(expected), expected, level);
}

/** Where a value lies: beyond a limit that exists, or inside. */
export function funnelPosition(value: number, limits: FunnelLimits): "below" | "inside" | "above" {
  if (limits.hasLower && value < limits.lower) return "below";
  return limits.hasUpper && value > limits.upper ? "above" : "inside";
}

/** r - a of the rule above: a count, not whole and perhaps negative. */
export function interpolatedCount(p: number, distribution: CountDistribution): number {
  requireBetween("p", p, 0, 1);
  const { lowerTail, probability, mode, most } = distribution;
  let above = Math.min(most, Math.max(1, mode));
  while (above < most && lowerTail(above) <= p) above = Math.min(most, 2 * above);
  let below = -1;
  while (above - below > 1) {
    const middle = Math.floor((above + below) / 2);
    if (lowerTail(middle) > p) above = middle;
    else below = middle;
  }
  return above - (lowerTail(above) - p) / probability(above);
}

function limitsOf(distribution: CountDistribution, scale: number, level: number): FunnelLimits {
  const tail = (1 - level) / 2;
  const { probability, most } = distribution;
  const hasLower = probability(0) <= tail;
  const hasUpper = most === Infinity || probability(most) <= tail;
  const limit = (p: number) => Math.max(0, interpolatedCount(p, distribution) / scale);
  return {
    lower: hasLower ? limit(tail) : 0,
    upper: hasUpper ? limit(1 - tail) : most / scale,
    hasLower,
    hasUpper,
    level,
  };
}
