/**
 * Two groups of eyes compared where a patient may give two eyes, to one group or to both.
 *
 * With p1, p2 the shares failed and, for patient g, s1 = sum of (y - p1) / n1 over its eyes of the
 * first group (s2 likewise), the variances and the covariance of the shares are G / (G - 1) times the
 * sums of s1 s1, s2 s2 and s1 s2 over the G patients (ratio estimators: Cochran 1977, section 6.3).
 * - difference: from the limits of each share, clustered themselves, and the correlation r,
 *   d - sqrt((p1 - l1)^2 + (u2 - p2)^2 - 2 r (p1 - l1)(u2 - p2))    (Zou and Donner 2008)
 * - risk ratio and odds ratio: on the scale of the logarithm, s / p and s / (p (1 - p)) in place of s,
 *   the variance of a regression with errors clustered by patient (Liang and Zeger 1986). Where a group
 *   shows no variance (one patient; one eye of each failed) it is taken as if the eyes of a patient
 *   always agreed, as `clustered-proportion.ts` has it.
 *
 * The 95% limits hold no difference, and ratios of 1, in 93.7% of samples or more (counted in the
 * tables of real coverage among the tests). Two curves of eyes of the same patients are another
 * matter: `survival-difference.ts` takes groups as independent, and its limits are then too wide
 * (97 to 100% where each patient has an eye in either group).
 */
import { readEvent, requireSameLength } from "./argument-checks.ts";
import { clusteredProportion } from "./clustered-proportion.ts";
import type { GroupLabel } from "./group-codes.ts";
import type { ComparisonEstimate } from "./newcombe-difference.ts";
import { fromLogarithm, type RatioEstimate } from "./ratio-estimates.ts";

/** Eyes of one group: whether each failed, and its patient. */
export interface ClusteredGroup {
  readonly failed: ArrayLike<number | boolean>;
  readonly cluster: ArrayLike<GroupLabel>;
}

export interface ClusteredComparison {
  readonly difference: ComparisonEstimate;
  /** Null unless someone failed in each group, and someone held. */
  readonly riskRatio: RatioEstimate | null;
  /** Null where any of the four cells is 0. */
  readonly oddsRatio: RatioEstimate | null;
}

/** First less, or over, second; null where either group is empty. */
export function clusteredComparison(
  first: ClusteredGroup,
  second: ClusteredGroup,
  level = 0.95,
): ClusteredComparison | null {
  for (const { failed, cluster } of [first, second]) requireSameLength({ failed, cluster });
  const one = clusteredProportion(first.failed, first.cluster, level);
  const two = clusteredProportion(second.failed, second.cluster, level);
  if (one === null || two === null) return null;
  const [p1, p2] = [one.estimate, two.estimate];
  const sums = sumsByCluster([first, p1], [second, p2]);
  const isVaried = p1 > 0 && p2 > 0 && (p1 < 1 || p2 < 1);
  const [odds1, odds2] = [p1 * (1 - p1), p2 * (1 - p2)];
  const about = { level, method: "patient-clustered" };
  const variance = (a: number, b: number) =>
    squares(sums, a, b) + a * a * unseenVariance(one) + b * b * unseenVariance(two);
  return {
    difference: differenceOf(one, two, correlation(sums)),
    riskRatio: isVaried
      ? fromLogarithm({ estimate: p1 / p2, variance: variance(1 / p1, -1 / p2), ...about })
      : null,
    oddsRatio:
      odds1 > 0 && odds2 > 0
        ? fromLogarithm({
            estimate: (p1 * (1 - p2)) / (p2 * (1 - p1)),
            variance: variance(1 / odds1, -1 / odds2),
            ...about,
          })
        : null,
  };
}

type Sums = readonly (readonly [first: number, second: number])[];

/** The patients' sums s1 and s2. */
function sumsByCluster(...groups: readonly (readonly [ClusteredGroup, number])[]): Sums {
  const sums = new Map<GroupLabel, [number, number]>();
  for (const [side, [{ failed, cluster }, share]] of groups.entries()) {
    for (let row = 0; row < failed.length; row++) {
      const own = sums.get(cluster[row]!) ?? [0, 0];
      own[side] = own[side]! + (readEvent(failed[row], row) - share) / failed.length;
      sums.set(cluster[row]!, own);
    }
  }
  return [...sums.values()];
}

/** The variance of a s1 + b s2. */
function squares(sums: Sums, a: number, b: number): number {
  const sum = sums.reduce((total, [one, two]) => total + (a * one + b * two) ** 2, 0);
  return (sums.length / Math.max(1, sums.length - 1)) * sum;
}

/** The variance of a share whose patients do not differ, by its design effect; 0 where it is seen. */
function unseenVariance({ estimate, standardError, designEffect, total }: Share): number {
  return standardError > 0 ? 0 : (designEffect * estimate * (1 - estimate)) / total;
}

function correlation(sums: Sums): number {
  const product = (of: (one: number, two: number) => number): number =>
    sums.reduce((total, [one, two]) => total + of(one, two), 0);
  const scale = product((one) => one * one) * product((_, two) => two * two);
  return scale === 0 ? 0 : product((one, two) => one * two) / Math.sqrt(scale);
}

type Share = NonNullable<ReturnType<typeof clusteredProportion>>;

function differenceOf(one: Share, two: Share, r: number): ComparisonEstimate {
  const estimate = one.estimate - two.estimate;
  const reach = (a: number, b: number): number =>
    Math.sqrt(Math.max(0, a * a + b * b - 2 * r * a * b));
  return {
    estimate,
    lower: Math.max(-1, estimate - reach(one.estimate - one.lower, two.upper - two.estimate)),
    upper: Math.min(1, estimate + reach(one.upper - one.estimate, two.estimate - two.lower)),
    level: one.level,
    method: "patient-clustered hybrid score",
  };
}
