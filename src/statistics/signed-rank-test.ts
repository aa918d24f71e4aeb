/**
 * Wilcoxon's signed-rank test of paired differences, with the Hodges–Lehmann estimate of the shift.
 *
 * The absolute differences are ranked, ties sharing their average rank; T is the sum of the ranks of the
 * positive ones. If the differences are symmetric about 0, every rank r has its sign by the toss of a
 * coin, so that T has mean sum r / 2 and variance sum r^2 / 4, whatever the ties (Wilcoxon 1945; Lehmann
 * 1975). Up to 100 differences the p value is exact, ties included: all sign patterns are counted by
 * adding one rank after another. Beyond, it is normal with a continuity correction of 1/2.
 *
 * Differences of 0 have no sign. "Pratt" (1959; unless another is asked for) ranks them with the others
 * and leaves their ranks out of the sum; "Wilcoxon" leaves them out before ranking. Differences are
 * tied, or 0, when they are no further apart than 1e-9 of the largest: 0.3 - 0.1 is 0.2.
 *
 * The estimate is the median of all averages of two differences, zeros included; its limits are the
 * averages that the test leaves at the level, taken from the distribution without ties (Hodges and
 * Lehmann 1963; Moses 1965), which makes them wider where there are ties. Too few differences
 * for the level (under 6 at 95%) have no limits: they are infinite.
 *
 * The 95% limits of the shift hold it in 95.7% of samples or more (with many zeros in nearly all),
 * and the test at 5% is wrong in 4 to 5.5% (counted in the tables of real coverage among the
 * tests).
 */
import { requireLevel, requireNumbers } from "./argument-checks.ts";
import { normalDeviate, normalTwoSided } from "./distributions.ts";
import type { Interval } from "./interval.ts";
import { walshAverage } from "./walsh-averages.ts";

export type ZeroDifferences = "Pratt" | "Wilcoxon";

export interface SignedRankTest {
  /** Differences that are not 0, and those that are. */
  readonly used: number;
  readonly zeros: number;
  /** T, the sum of the ranks of the positive differences. */
  readonly statistic: number;
  /** Two-sided; 1 where every difference is 0. */
  readonly pValue: number;
  readonly isExact: boolean;
  readonly zeroDifferences: ZeroDifferences;
  readonly shift: Interval & { readonly estimate: number };
}

export interface SignedRankOptions {
  readonly zeroDifferences?: ZeroDifferences;
  readonly level?: number;
}

const MOST_EXACT = 100;
const TIE = 1e-9;

/** The test of differences (after less before); null for none. Refuses a missing difference. */
export function signedRankTest(
  differences: ArrayLike<number>,
  { zeroDifferences = "Pratt", level = 0.95 }: SignedRankOptions = {},
): SignedRankTest | null {
  requireLevel(level);
  requireNumbers("differences", differences);
  if (zeroDifferences !== "Pratt" && zeroDifferences !== "Wilcoxon") {
    throw new RangeError(`zeroDifferences is ${zeroDifferences}; expected Pratt or Wilcoxon`);
  }
  if (differences.length === 0) return null;
  const { ranks, isPositive, zeros } = signedRanks(differences, zeroDifferences);
  const statistic = ranks.reduce((sum, rank, k) => sum + (isPositive[k] === 1 ? rank : 0), 0);
  const isExact = ranks.length <= MOST_EXACT;
  return {
    used: ranks.length,
    zeros,
    statistic,
    pValue: (isExact ? exactTwoSided : normalApproximation)(ranks, statistic),
    isExact,
    zeroDifferences,
    shift: hodgesLehmann(Float64Array.from(differences).sort(), level),
  };
}

/** The ranks of the differences that are not 0, ascending, and which of them are positive. */
function signedRanks(differences: ArrayLike<number>, treatment: ZeroDifferences) {
  const all = Array.from(differences).sort((a, b) => Math.abs(a) - Math.abs(b));
  const tolerance = TIE * Math.abs(all.at(-1)!);
  const zeros = all.findIndex((d) => Math.abs(d) > tolerance);
  const from = zeros === -1 ? all.length : zeros;
  const signed = all.slice(from);
  const before = treatment === "Pratt" ? from : 0;
  const sizes = signed.map(Math.abs);
  const ranks = new Float64Array(signed.length);
  for (let start = 0; start < sizes.length; ) {
    let end = start + 1;
    while (end < sizes.length && sizes[end]! - sizes[end - 1]! <= tolerance) end++;
    ranks.fill(before + (start + 1 + end) / 2, start, end);
    start = end;
  }
  return { ranks, isPositive: Uint8Array.from(signed, (d) => (d > 0 ? 1 : 0)), zeros: from };
}

/** Twice the smaller tail, the observed sum included; ranks are whole or halves. */
function exactTwoSided(ranks: Float64Array, statistic: number): number {
  const distribution = sumDistribution(ranks.map((rank) => 2 * rank));
  const reached = Math.round(2 * statistic);
  let lower = 0;
  let upper = 0;
  distribution.forEach((probability, sum) => {
    if (sum <= reached) lower += probability;
    if (sum >= reached) upper += probability;
  });
  return Math.min(1, 2 * Math.min(lower, upper));
}

/** The probability of each sum when every one of these whole numbers is taken or not by a coin. */
function sumDistribution(numbers: Float64Array): Float64Array {
  const distribution = new Float64Array(numbers.reduce((a, b) => a + b, 0) + 1);
  distribution[0] = 1;
  let reached = 0;
  for (const number of numbers) {
    reached += number;
    for (let sum = reached; sum >= 0; sum--) {
      const taken = sum < number ? 0 : distribution[sum - number]!;
      distribution[sum] = (distribution[sum]! + taken) / 2;
    }
  }
  return distribution;
}

function normalApproximation(ranks: Float64Array, statistic: number): number {
  const mean = ranks.reduce((sum, rank) => sum + rank, 0) / 2;
  const variance = ranks.reduce((sum, rank) => sum + rank * rank, 0) / 4;
  return normalTwoSided(Math.max(0, Math.abs(statistic - mean) - 0.5) / Math.sqrt(variance));
}

function hodgesLehmann(ordered: Float64Array, level: number): SignedRankTest["shift"] {
  const averages = (ordered.length * (ordered.length + 1)) / 2;
  const middle = [Math.floor((averages + 1) / 2), Math.ceil((averages + 1) / 2)];
  const [low, high] = middle.map((rank) => walshAverage(ordered, rank)) as [number, number];
  const outside = averagesOutside(ordered.length, level);
  return {
    estimate: (low + high) / 2,
    lower: outside < 0 ? -Infinity : walshAverage(ordered, outside + 1),
    upper: outside < 0 ? Infinity : walshAverage(ordered, averages - outside),
    level,
    method: "Hodges–Lehmann, by the signed-rank test",
  };
}

/** The most averages that may lie outside a limit: the largest t with P(T <= t) <= (1 - level) / 2. */
function averagesOutside(pairs: number, level: number): number {
  const tail = (1 - level) / 2;
  const mean = (pairs * (pairs + 1)) / 4;
  if (pairs > MOST_EXACT) {
    const deviation = Math.sqrt((mean * (2 * pairs + 1)) / 6);
    return Math.floor(mean - 0.5 - normalDeviate(level) * deviation);
  }
  const distribution = sumDistribution(Float64Array.from({ length: pairs }, (_, k) => k + 1));
  let sum = -1;
  let below = distribution[0]!;
  while (below <= tail * (1 + 1e-12)) {
    sum++;
    below += distribution[sum + 1]!;
  }
  return sum;
}
