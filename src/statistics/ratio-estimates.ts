/**
 * The risk ratio and the odds ratio of two independent groups, with limits from the normal
 * approximation on the scale of the logarithm.
 *
 *   var ln RR = 1/a - 1/n1 + 1/c - 1/n2          (Katz et al. 1978)
 *   var ln OR = 1/a + 1/b + 1/c + 1/d            (Woolf 1955)
 * with a, b failed and held in the first group of n1, c, d in the second of n2. Where a count in a
 * denominator is 0 the variance does not exist and the answer is null: no half is added in secret. So it
 * is for the risk ratio when everyone failed: its variance of 0 would claim to know it exactly.
 * Use the score intervals of `miettinen-nurminen.ts` there.
 *
 * Under equal rates the 95% limits of both, where they exist, hold the truth in 95.0% of samples or
 * more (counted in the tables of real coverage among the tests).
 */
import { requireLevel } from "./argument-checks.ts";
import { normalDeviate } from "./distributions.ts";
import type { ComparisonEstimate } from "./newcombe-difference.ts";
import { cellsOf, type TwoByTwo } from "./two-by-two.ts";

export interface RatioEstimate extends ComparisonEstimate {
  /** Standard error of the logarithm of the estimate. */
  readonly logStandardError: number;
}

/** The ratio of the shares failed, first over second; null unless someone failed in each, and held. */
export function riskRatio(table: TwoByTwo, level = 0.95): RatioEstimate | null {
  const { firstFailed, secondFailed, firstHeld, secondHeld } = cellsOf(table);
  requireLevel(level);
  if (firstFailed === 0 || secondFailed === 0 || firstHeld + secondHeld === 0) return null;
  const { first, second } = table;
  const estimate = firstFailed / first.total / (secondFailed / second.total);
  const variance = 1 / firstFailed - 1 / first.total + 1 / secondFailed - 1 / second.total;
  return fromLogarithm({ estimate, variance, level, method: "log risk ratio (Katz)" });
}

/** The odds ratio of failure, first over second; null when any of the four cells is 0. */
export function oddsRatio(table: TwoByTwo, level = 0.95): RatioEstimate | null {
  const { firstFailed, firstHeld, secondFailed, secondHeld } = cellsOf(table);
  requireLevel(level);
  if (firstFailed * firstHeld * secondFailed * secondHeld === 0) return null;
  const estimate = (firstFailed * secondHeld) / (firstHeld * secondFailed);
  const variance = 1 / firstFailed + 1 / firstHeld + 1 / secondFailed + 1 / secondHeld;
  return fromLogarithm({ estimate, variance, level, method: "log odds ratio (Woolf)" });
}

/** A ratio with limits that are symmetric on the scale of its logarithm. */
export function fromLogarithm(part: {
  estimate: number;
  variance: number;
  level: number;
  method: string;
}): RatioEstimate {
  const { estimate, variance, level, method } = part;
  const logStandardError = Math.sqrt(variance);
  const factor = Math.exp(normalDeviate(level) * logStandardError);
  return {
    estimate,
    logStandardError,
    lower: estimate / factor,
    upper: estimate * factor,
    level,
    method,
  };
}
