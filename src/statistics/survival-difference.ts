/**
 * Comparing two independent groups at one time: the difference of two survival curves.
 *
 * Interval: from the limits (l, u) of each curve, as for two proportions,
 *   lower = d - sqrt((S1 - l1)^2 + (u2 - S2)^2), upper likewise (Zou and Donner 2008).
 * Test: the difference of ln(-ln S) over its standard error, squared, on 1 degree (Klein, Logan,
 * Harhoff and Andersen 2007, the transformation that holds its size best). It does not exist, and its
 * p is null, where either estimate is 0 or 1.
 */
import { chiSquareUpperTail } from "./distributions.ts";
import type { SurvivalCurve } from "./kaplan-meier.ts";
import type { ComparisonEstimate } from "./newcombe-difference.ts";
import { type SurvivalEstimate, survivalAt } from "./survival-at.ts";

export interface SurvivalDifference extends ComparisonEstimate {
  readonly time: number;
  readonly first: SurvivalEstimate;
  readonly second: SurvivalEstimate;
  readonly chiSquare: number | null;
  readonly pValue: number | null;
}

/** Survival of `first` less that of `second` at time `t`; null where either is not estimable. */
export function survivalDifferenceAt(
  first: SurvivalCurve,
  second: SurvivalCurve,
  t: number,
): SurvivalDifference | null {
  if (first.level !== second.level) {
    throw new RangeError(`the levels are ${first.level} and ${second.level}; expected the same`);
  }
  const one = survivalAt(first, t);
  const two = survivalAt(second, t);
  if (one === null || two === null) return null;
  const estimate = one.estimate - two.estimate;
  const chiSquare = transformedTest(one, two);
  return {
    time: t,
    first: one,
    second: two,
    estimate,
    lower: estimate - Math.hypot(one.estimate - one.lower, two.upper - two.estimate),
    upper: estimate + Math.hypot(one.upper - one.estimate, two.estimate - two.lower),
    level: first.level,
    method: `difference from ${first.limits} limits (Zou–Donner)`,
    chiSquare,
    pValue: chiSquare === null ? null : chiSquareUpperTail(chiSquare, 1),
  };
}

function transformedTest(one: SurvivalEstimate, two: SurvivalEstimate): number | null {
  const parts = [one, two].map(({ estimate, standardError }) => {
    const logSurvival = Math.log(estimate);
    const error = standardError / (estimate * logSurvival);
    return { value: Math.log(-logSurvival), variance: error ** 2 };
  });
  const chiSquare =
    (parts[0]!.value - parts[1]!.value) ** 2 / (parts[0]!.variance + parts[1]!.variance);
  return Number.isFinite(chiSquare) ? chiSquare : null;
}
