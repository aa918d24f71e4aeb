/**
 * The log-rank test of equal survival in two or more groups, its weighted relatives, its
 * stratified form, and the test for trend over ordered groups.
 *
 * At each event time, with d events among n at risk and n_g of them in group g, group g expects
 * d n_g / n events, with hypergeometric covariance
 *   d (n - d) / (n - 1) * (n_g / n) (1[g = h] - n_h / n).
 * Observed less expected and the covariance are summed over times, with a weight w(t) and w(t)^2,
 * and over strata; the chi-square is the quadratic form on (number of groups - 1) degrees
 * (Mantel 1966; Peto and Peto 1972; Tarone and Ware 1977; Fleming and Harrington 1981).
 *
 * Weights: "log-rank" 1; "Gehan" n (Gehan 1965; Breslow 1970); "Tarone-Ware" the root of n;
 * "Peto" the pooled S~ = product of 1 - d / (n + 1) (Peto and Peto 1972, Prentice 1978);
 * { rho, gamma } S(t-)^rho (1 - S(t-))^gamma with the pooled Kaplan–Meier estimate just before t.
 * A group with nobody at risk at any event time has no part in the test and takes no degree.
 */
import { requireNumbers } from "./argument-checks.ts";
import { chiSquareUpperTail, normalTwoSided } from "./distributions.ts";
import { codeGroups, type GroupLabel } from "./group-codes.ts";
import type { GroupRiskSets } from "./group-risk-sets.ts";
import { type EventWeighting, eventWeights } from "./log-rank-weights.ts";
import { stratifiedRiskSets } from "./stratified-risk-sets.ts";
import { quadraticForm } from "./symmetric-solve.ts";
import { mirror } from "./weighted-product.ts";

export interface LogRankInput {
  readonly time: ArrayLike<number>;
  readonly event: ArrayLike<number | boolean>;
  readonly group: ArrayLike<GroupLabel>;
  /** Rows are compared only within their stratum. */
  readonly strata?: ArrayLike<GroupLabel>;
  readonly entry?: ArrayLike<number>;
  /** The groups and their order, when some may have no rows. */
  readonly groups?: readonly GroupLabel[];
  readonly weighting?: EventWeighting;
}

export interface LogRankTest {
  readonly groups: readonly GroupLabel[];
  /** Rows of each group. */
  readonly subjects: readonly number[];
  /** Weighted observed and expected events of each group. */
  readonly observed: readonly number[];
  readonly expected: readonly number[];
  /** Covariance of observed less expected, row by row, groups * groups. */
  readonly variance: Float64Array;
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
}

/** The test; with fewer than two groups that have anyone at risk its p is 1 on 0 degrees. */
export function logRank(input: LogRankInput): LogRankTest {
  const groups = codeGroups(input.group, input.groups);
  const strata =
    input.strata === undefined ? undefined : codeGroups(input.strata, undefined, "strata");
  const sums = emptySums(groups.labels.length);
  for (const riskSets of stratifiedRiskSets({ ...input, groups }, strata)) {
    addStratum(sums, riskSets, input.weighting ?? "log-rank");
  }
  completeVariance(sums.variance, groups.labels.length);
  const difference = sums.observed.map((o, g) => o - sums.expected[g]!);
  const { value, rank } = quadraticForm(sums.variance, difference);
  return {
    groups: groups.labels,
    subjects: Array.from(sums.subjects),
    observed: Array.from(sums.observed),
    expected: Array.from(sums.expected),
    variance: sums.variance,
    chiSquare: value,
    degreesOfFreedom: rank,
    pValue: chiSquareUpperTail(value, rank),
  };
}

export interface TrendTest {
  readonly z: number;
  readonly chiSquare: number;
  readonly pValue: number;
}

/**
 * The test for trend over the groups of a log-rank test with one score per group, 1, 2, 3, ...
 * unless given; p is 1 where the scores of the groups at risk do not differ (Tarone 1975).
 */
export function logRankTrend(test: LogRankTest, scores?: ArrayLike<number>): TrendTest {
  const count = test.groups.length;
  const score = scores ?? test.groups.map((_, g) => g + 1);
  if (score.length !== count) {
    throw new RangeError(`scores has ${score.length} values; expected one for each of ${count}`);
  }
  requireNumbers("scores", score);
  // about their mean, which changes nothing but the digits that are lost to large ones
  const mean = Array.from(score).reduce((sum, value) => sum + value / count, 0);
  let difference = 0;
  let variance = 0;
  for (let g = 0; g < count; g++) {
    const own = score[g]! - mean;
    difference += own * (test.observed[g]! - test.expected[g]!);
    for (let h = 0; h < count; h++) {
      variance += own * (score[h]! - mean) * test.variance[g * count + h]!;
    }
  }
  const z = variance <= 0 ? 0 : difference / Math.sqrt(variance);
  return { z, chiSquare: z * z, pValue: normalTwoSided(z) };
}

interface Sums {
  readonly subjects: Float64Array;
  readonly observed: Float64Array;
  readonly expected: Float64Array;
  readonly variance: Float64Array;
}

function emptySums(groups: number): Sums {
  const column = () => new Float64Array(groups);
  const variance = new Float64Array(groups * groups);
  return { subjects: column(), observed: column(), expected: column(), variance };
}

/**
 * Adds one stratum. With u = w^2 d (n - d) / (n - 1) / n^2 of a time, two groups' covariance is less the
 * sum of u n_g n_h; the variances follow, since the rows of the covariance add up to 0.
 */
function addStratum(sums: Sums, riskSets: GroupRiskSets, weighting: EventWeighting): void {
  const { groups, counts } = riskSets;
  const { subjects, observed, expected, variance } = sums;
  for (let g = 0; g < groups; g++) subjects[g] = subjects[g]! + riskSets.subjects[g]!;
  const weightAt = weighting === "log-rank" ? undefined : eventWeights(weighting);
  for (let start = 0; start < counts.length; start += 2 * groups) {
    let d = 0;
    let n = 0;
    for (let cell = start; cell < start + groups; cell++) {
      n += counts[cell]!;
      d += counts[cell + groups]!;
    }
    const weight = weightAt === undefined ? 1 : weightAt(d, n);
    const share = weight / n;
    const spread = n > 1 ? (share * share * d * (n - d)) / (n - 1) : 0;
    for (let g = 0; g < groups; g++) {
      const own = counts[start + g]!;
      observed[g] = observed[g]! + weight * counts[start + groups + g]!;
      expected[g] = expected[g]! + share * d * own;
      const factor = spread * own;
      for (let h = g + 1, cell = g * groups + h; h < groups; h++, cell++) {
        variance[cell] = variance[cell]! - factor * counts[start + h]!;
      }
    }
  }
}

/** Fills in the variances and the lower half of the covariance. */
function completeVariance(variance: Float64Array, groups: number): void {
  mirror(variance, groups);
  for (let g = 0; g < groups; g++) {
    const row = variance.subarray(g * groups, (g + 1) * groups);
    row[g] = -row.reduce((sum, value, h) => (h === g ? sum : sum + value), 0);
  }
}
