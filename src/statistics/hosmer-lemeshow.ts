/**
 * Groups of equal predicted risk: the calibration plot's points, and the Hosmer–Lemeshow test.
 *
 * The test has no unique value, since groups can be formed in many ways. Here rows are cut at the
 * quantiles of the predicted probability (linear interpolation, Hyndman and Fan's type 7), a row on a cut
 * belonging below it; equal cuts merge, so there may be fewer groups than asked for. The statistic is the
 * sum of (O - E)^2 / (E (1 - E / n)) on groups - 2 degrees for a model on its own data (Hosmer and Lemeshow
 * 1980), groups for probabilities from elsewhere.
 */
import { readPredictions } from "./calibration.ts";
import { chiSquareUpperTail } from "./distributions.ts";
import type { Interval } from "./interval.ts";
import { sampleQuantile } from "./sample-quantile.ts";
import { wilsonInterval } from "./wilson-interval.ts";

export interface RiskGroup {
  readonly total: number;
  readonly observed: number;
  readonly expected: number;
  /** The largest predicted probability that belongs to the group. */
  readonly upTo: number;
  /** Wilson's interval of the observed share. */
  readonly interval: Interval;
}

export interface HosmerLemeshow {
  readonly groups: readonly RiskGroup[];
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
}

/** The groups and the test; null for no rows. `isOwnData` says whether the model was fitted on them. */
export function hosmerLemeshow(
  outcome: ArrayLike<number | boolean>,
  probability: ArrayLike<number>,
  { groups = 10, isOwnData = true }: { groups?: number; isOwnData?: boolean } = {},
): HosmerLemeshow | null {
  if (!Number.isInteger(groups) || groups < 2) {
    throw new RangeError(`groups is ${groups}; expected a whole number of 2 or more`);
  }
  const { events, rows } = readPredictions(outcome, probability);
  if (rows === 0) return null;
  const formed = riskGroups(events, Float64Array.from(probability), groups);
  const statistic = formed.reduce((sum, group) => sum + part(group), 0);
  const degreesOfFreedom = Math.max(0, formed.length - (isOwnData ? 2 : 0));
  const pValue = chiSquareUpperTail(statistic, degreesOfFreedom);
  return { groups: formed, statistic, degreesOfFreedom, pValue };
}

function riskGroups(events: Float64Array, probability: Float64Array, groups: number): RiskGroup[] {
  const cuts = Array.from(
    { length: groups },
    (_, g) => sampleQuantile(probability, (g + 1) / groups)!,
  );
  const distinct = cuts.filter((cut, g) => g === 0 || cut > cuts[g - 1]!);
  const sums = distinct.map(() => ({ total: 0, observed: 0, expected: 0 }));
  probability.forEach((p, i) => {
    const sum =
      sums[
        Math.min(
          distinct.length - 1,
          distinct.findIndex((cut) => p <= cut),
        )
      ]!;
    sum.total++;
    sum.observed += events[i]!;
    sum.expected += p;
  });
  return sums
    .map((sum, g) => ({ ...sum, upTo: distinct[g]! }))
    .filter((group) => group.total > 0)
    .map((group) => ({ ...group, interval: wilsonInterval(group.observed, group.total)! }));
}

function part({ total, observed, expected }: RiskGroup): number {
  const variance = expected * (1 - expected / total);
  if (variance > 0) return (observed - expected) ** 2 / variance;
  return observed === expected ? 0 : Infinity;
}
