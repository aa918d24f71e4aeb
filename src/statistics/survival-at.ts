/**
 * Reading a survival curve at given times: the estimate, its limits and how many were at risk.
 *
 * Conventions: the curve is a step function, continuous from the right. Before the first time it
 * is 1, with the exact binomial limits for none failed of everyone at risk. After the last
 * observed time the curve is known only when it has reached 0; otherwise the answer is null, never
 * the last value carried on. A time within 1e-9 of a step, relatively, is on that step.
 */
import type { SurvivalCurve } from "./kaplan-meier.ts";
import { positionAtOrBefore } from "./time-index.ts";

export interface SurvivalEstimate {
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
  readonly atRisk: number;
}

/**
 * Survival at time `t` with its limits, or null where it is not estimable: no rows at all, or `t`
 * is after the last observed time of a curve that has not reached 0.
 */
export function survivalAt(curve: SurvivalCurve, t: number): SurvivalEstimate | null {
  requireTime(t);
  const last = curve.time.length - 1;
  if (last < 0) return null;
  const next = nextStep(curve, t);
  const atRisk = next > last ? 0 : curve.atRisk[next]!;
  const position = stepAt(curve, t);
  if (position < 0) return beforeFirstStep(curve, next);
  if (next > last && curve.survival[last] !== 0) return null;
  return {
    estimate: curve.survival[position]!,
    standardError: curve.standardError[position]!,
    lower: curve.lower[position]!,
    upper: curve.upper[position]!,
    atRisk,
  };
}

/**
 * The (weighted) number at risk at each of `times`: those who leave at that time or after it.
 * With delayed entry it is the number at risk at the next time of the curve.
 */
export function atRiskAt(curve: SurvivalCurve, times: ArrayLike<number>): number[] {
  return Array.from(times, (t) => {
    requireTime(t);
    const next = nextStep(curve, t);
    return next < curve.time.length ? curve.atRisk[next]! : 0;
  });
}

/** The position of the last step at or before `t`, -1 before the first; forgives rounding. */
export function stepAt(curve: { readonly time: Float64Array }, t: number): number {
  return positionAtOrBefore({ times: curve.time, tolerance: Math.abs(t) * 1e-9 }, t);
}

/** The position of the first step at or after `t`; the number of steps when there is none. */
function nextStep(curve: SurvivalCurve, t: number): number {
  const position = stepAt(curve, t);
  const isOnStep = position >= 0 && Math.abs(curve.time[position]! - t) <= Math.abs(t) * 1e-9;
  return isOnStep ? position : position + 1;
}

function beforeFirstStep(curve: SurvivalCurve, next: number): SurvivalEstimate {
  const atRisk = curve.atRisk[next] ?? 0;
  const lower = ((1 - curve.level) / 2) ** (1 / (curve.clustersAtRisk?.[next] ?? atRisk));
  return { estimate: 1, standardError: 0, lower, upper: 1, atRisk };
}

function requireTime(t: number): void {
  if (!(t >= 0 && t < Infinity)) {
    throw new RangeError(`the time is ${t}; expected a finite number of 0 or more`);
  }
}
