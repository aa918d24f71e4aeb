/**
 * The mid-P exact interval for one proportion: the limits at which half the probability of the
 * observed count plus that of all more extreme ones is (1 - level) / 2 (Lancaster 1961; method 6
 * of Newcombe, Statistics in Medicine 1998;17:857). The limits are 0 at x = 0 and 1 at x = n.
 *
 * The 95% limits hold the true rate in 93.5 to 99% of samples of 20 to 500 eyes (counted in the
 * tables of real coverage among the tests).
 */
import { requireLevel, requirePartOfWhole } from "./argument-checks.ts";
import { binomialUpperTail } from "./distributions.ts";
import { findRoot } from "./find-root.ts";
import type { Interval } from "./interval.ts";

/** The mid-P interval for `failed` of `total`; null, not estimable, when `total` is 0. */
export function midPInterval(failed: number, total: number, level = 0.95): Interval | null {
  requirePartOfWhole(failed, total);
  requireLevel(level);
  if (total === 0) return null;
  const tail = (1 - level) / 2;
  const lower = lowerLimit(failed, total, tail);
  const upper = 1 - lowerLimit(total - failed, total, tail);
  return { lower, upper, level, method: "mid-P" };
}

function lowerLimit(failed: number, total: number, tail: number): number {
  if (failed === 0) return 0;
  const excess = (p: number) =>
    (binomialUpperTail(failed, total, p) + binomialUpperTail(failed + 1, total, p)) / 2 - tail;
  return findRoot(excess, { from: 0, to: 1 });
}
