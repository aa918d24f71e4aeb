/**
 * Groups of equal predicted risk: the calibration plot's points, and the Hosmer–Lemeshow test.
 *
 * The test has no unique value, since groups can be formed in many ways: here as in `risk-groups.ts`. The
 * statistic is the sum of (O - E)^2 / (E (1 - E / n)) on groups - 2 degrees for a model on its own data
 * (Hosmer and Lemeshow 1980), groups for probabilities from elsewhere.
 *
 * On a model's own data, in tenths or fewer groups of 15 rows or more, the test at 5% is wrong in
 * 6% or fewer (counted in the tables of real coverage among the tests).
 */
import { readPredictions } from "./calibration.ts";
import { chiSquareUpperTail } from "./distributions.ts";
import type { Interval } from "./interval.ts";
import { type GroupsOfRisk, groupsOfRisk } from "./risk-groups.ts";
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
  const { events, rows } = readPredictions(outcome, probability);
  const { upTo, codes } = groupsOfRisk(probability, groups);
  if (rows === 0) return null;
  const formed = riskGroups(events, probability, { upTo, codes });
  const statistic = formed.reduce((sum, group) => sum + part(group), 0);
  const degreesOfFreedom = Math.max(0, formed.length - (isOwnData ? 2 : 0));
  const pValue = chiSquareUpperTail(statistic, degreesOfFreedom);
  return { groups: formed, statistic, degreesOfFreedom, pValue };
}

function riskGroups(
  events: Float64Array,
  probability: ArrayLike<number>,
  { upTo, codes }: GroupsOfRisk,
): RiskGroup[] {
  const sums = upTo.map(() => ({ total: 0, observed: 0, expected: 0 }));
  codes.forEach((code, row) => {
    const sum = sums[code]!;
    sum.total++;
    sum.observed += events[row]!;
    sum.expected += probability[row]!;
  });
  return sums.map((sum, g) => ({
    ...sum,
    upTo: upTo[g]!,
    interval: wilsonInterval(sum.observed, sum.total)!,
  }));
}

function part({ total, observed, expected }: RiskGroup): number {
  const variance = expected * (1 - expected / total);
  if (variance > 0) return (observed - expected) ** 2 / variance;
  return observed === expected ? 0 : Infinity;
}
