/**
 * Miettinen and Nurminen's score intervals for the difference, the ratio and the odds ratio of
 * two independent proportions (Statistics in Medicine 1985;4:213).
 *
 * A value of the comparison is inside the limits when its score statistic, with variances at the
 * proportions fitted under that value and multiplied by N / (N - 1), is within the normal
 * deviate. Cells of 0 need no adjustment: a ratio then has a limit of 0 or Infinity.
 *
 * Under equal rates the 95% limits of all three hold the truth in 94.6% of samples or more (counted
 * in the tables of real coverage among the tests).
 */
import { requireLevel } from "./argument-checks.ts";
import { normalDeviate } from "./distributions.ts";
import { findRoot } from "./find-root.ts";
import type { ComparisonEstimate } from "./newcombe-difference.ts";
import { cellsOf, hasEmptyGroup, type TwoByTwo } from "./two-by-two.ts";

/** The difference of the shares failed, first less second; null if a group is empty. */
export function scoreDifference(table: TwoByTwo, level = 0.95): ComparisonEstimate | null {
  if (isRefused(table, level)) return null;
  const { p1, p2 } = shares(table);
  const estimate = p1 - p2;
  const deviate = normalDeviate(level);
  const limit = (sign: number, end: number) =>
    estimate === end
      ? end
      : findRoot((d) => differenceScore(table, d) + sign * deviate, { from: estimate, to: end });
  return described({ estimate, lower: limit(-1, -1), upper: limit(1, 1) }, level);
}

/** The ratio of the shares failed, first over second; null if a group is empty or none failed. */
export function scoreRatio(table: TwoByTwo, level = 0.95): ComparisonEstimate | null {
  if (isRefused(table, level)) return null;
  const { p1, p2 } = shares(table);
  if (p1 === 0 && p2 === 0) return null;
  return onLogScale(table, p1 / p2, { level, score: ratioScore });
}

/** The odds ratio of failure; null if a group is empty, or if none or all failed in both. */
export function scoreOddsRatio(table: TwoByTwo, level = 0.95): ComparisonEstimate | null {
  if (isRefused(table, level)) return null;
  const { firstFailed, firstHeld, secondFailed, secondHeld } = cellsOf(table);
  if (firstFailed + secondFailed === 0 || firstHeld + secondHeld === 0) return null;
  const estimate = (firstFailed * secondHeld) / (firstHeld * secondFailed);
  return onLogScale(table, estimate, { level, score: oddsScore });
}

/** Limits of a ratio: the roots on the scale of its logarithm, sought outwards from its middle. */
function onLogScale(
  table: TwoByTwo,
  estimate: number,
  { level, score }: { level: number; score: (table: TwoByTwo, ratio: number) => number },
): ComparisonEstimate {
  const deviate = normalDeviate(level);
  const limit = (sign: number) => {
    const f = (logRatio: number) => score(table, Math.exp(logRatio)) + sign * deviate;
    return Math.exp(findRoot(f, bracketAround(f, startOf(table))));
  };
  const lower = estimate === 0 ? 0 : limit(-1);
  const upper = estimate === Infinity ? Infinity : limit(1);
  return described({ estimate, lower, upper }, level);
}

/** A finite start: the logarithm of the odds ratio with a half added to every cell. */
function startOf(table: TwoByTwo): number {
  const { firstFailed, firstHeld, secondFailed, secondHeld } = cellsOf(table);
  const product = (firstFailed + 0.5) * (secondHeld + 0.5);
  return Math.log(product / ((firstHeld + 0.5) * (secondFailed + 0.5)));
}

/** The narrowest of ever wider brackets in which `f`, which falls, crosses 0. */
function bracketAround(f: (x: number) => number, start: number) {
  let reach = 1;
  while (reach < 64 && !(f(start - reach) >= 0 && f(start + reach) <= 0)) reach *= 1.5;
  return { from: start - reach, to: start + reach };
}

/** The signed score statistic of a difference; falls as the difference rises. */
function differenceScore(table: TwoByTwo, difference: number): number {
  const { p1, p2 } = shares(table);
  const q2 = constrainedSecond(table, difference);
  const q1 = Math.min(1, Math.max(0, q2 + difference));
  return standardised(p1 - p2 - difference, varianceOf(table, { q1, q2, ratio: 1 }));
}

/** The fitted second proportion under a given difference: the root of the cubic likelihood. */
function constrainedSecond({ first, second }: TwoByTwo, difference: number): number {
  const n = first.total + second.total;
  const failed = first.failed + second.failed;
  const l2 = (first.total + 2 * second.total) * difference - n - failed;
  const l1 = (second.total * difference - n - 2 * second.failed) * difference + failed;
  const l0 = second.failed * difference * (1 - difference);
  const third = l2 / (3 * n);
  const q = third ** 3 - (l1 * l2) / (6 * n * n) + l0 / (2 * n);
  const p = Math.sign(q || 1) * Math.sqrt(Math.max(0, third ** 2 - l1 / (3 * n)));
  const cosine = p === 0 ? 0 : Math.min(1, Math.max(-1, q / p ** 3));
  const root = 2 * p * Math.cos((Math.PI + Math.acos(cosine)) / 3) - third;
  return Math.min(1, Math.max(0, root), 1 - difference);
}

function ratioScore(table: TwoByTwo, ratio: number): number {
  const { first, second } = table;
  const { p1, p2 } = shares(table);
  const a = (first.total + second.total) * ratio;
  const b = -(first.total * ratio + first.failed + second.total + second.failed * ratio);
  const c = first.failed + second.failed;
  const q2 = (2 * c) / (-b + Math.sqrt(Math.max(0, b * b - 4 * a * c)));
  const q1 = Math.min(1, q2 * ratio);
  return standardised(p1 - ratio * p2, varianceOf(table, { q1, q2: Math.min(1, q2), ratio }));
}

function oddsScore(table: TwoByTwo, odds: number): number {
  const { first, second } = table;
  const { p1 } = shares(table);
  const failed = first.failed + second.failed;
  const b = first.total * odds + second.total - failed * (odds - 1);
  const root = Math.sqrt(b * b + 4 * second.total * (odds - 1) * failed);
  const q2 = (2 * failed) / (b + root);
  const q1 = (q2 * odds) / (1 + q2 * (odds - 1));
  const correction = (first.total + second.total - 1) / (first.total + second.total);
  const information = 1 / (1 / (first.total * q1 * (1 - q1)) + 1 / (second.total * q2 * (1 - q2)));
  // the efficient score: both proportions' residuals are the same up to sign at the fitted values
  return (first.total * (p1 - q1) * Math.sqrt(correction)) / Math.sqrt(information);
}

function varianceOf(
  { first, second }: TwoByTwo,
  { q1, q2, ratio }: { q1: number; q2: number; ratio: number },
): number {
  const n = first.total + second.total;
  const one = (q1 * (1 - q1)) / first.total;
  const two = (ratio * ratio * q2 * (1 - q2)) / second.total;
  return ((one + two) * n) / (n - 1);
}

function standardised(difference: number, variance: number): number {
  if (difference === 0) return 0;
  return variance <= 0 ? Math.sign(difference) * Infinity : difference / Math.sqrt(variance);
}

function shares({ first, second }: TwoByTwo) {
  return { p1: first.failed / first.total, p2: second.failed / second.total };
}

function isRefused(table: TwoByTwo, level: number): boolean {
  cellsOf(table);
  requireLevel(level);
  return hasEmptyGroup(table);
}

function described(
  part: { estimate: number; lower: number; upper: number },
  level: number,
): ComparisonEstimate {
  return { ...part, level, method: "Miettinen–Nurminen score" };
}
