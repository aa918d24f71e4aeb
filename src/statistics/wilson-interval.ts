/**
 * Wilson's score interval for one proportion, with and without continuity correction.
 *
 * The p with |x/n - p| = z sqrt(p (1 - p) / n), solved for p:
 *   (x + z^2/2 -+ z sqrt(x (n - x) / n + z^2/4)) / (n + z^2)
 * (Wilson 1927; methods 3 and 4 of Newcombe, Statistics in Medicine 1998;17:857). The corrected
 * one lowers the distance by 1/(2n). Limits are exactly 0 at x = 0 and 1 at x = n.
 *
 * Of samples of 20 to 500 eyes of which 2 to 30% fail, Wilson's 95% limits hold the true rate in 92
 * to 98%: about the level on average over rates, under it at some. The corrected ones hold it in
 * 95.5% or more, Clopper and Pearson's in 95.4% or more (counted in the tables of real coverage
 * among the tests).
 */
import { requireLevel, requirePartOfWhole } from "./argument-checks.ts";
import { normalDeviate } from "./distributions.ts";
import type { Interval } from "./interval.ts";

/** Wilson's interval for `failed` of `total`; null, not estimable, when `total` is 0. */
export function wilsonInterval(failed: number, total: number, level = 0.95): Interval | null {
  requirePartOfWhole(failed, total);
  requireLevel(level);
  if (total === 0) return null;
  const z2 = normalDeviate(level) ** 2;
  const centre = failed + z2 / 2;
  const width = Math.sqrt(z2 * ((failed * (total - failed)) / total + z2 / 4));
  return {
    lower: failed === 0 ? 0 : (centre - width) / (total + z2),
    upper: failed === total ? 1 : (centre + width) / (total + z2),
    level,
    method: "Wilson",
  };
}

/** Wilson's interval with continuity correction; null, not estimable, when `total` is 0. */
export function wilsonCorrectedInterval(
  failed: number,
  total: number,
  level = 0.95,
): Interval | null {
  requirePartOfWhole(failed, total);
  requireLevel(level);
  if (total === 0) return null;
  const lower = correctedLower(failed, total, level);
  const upper = 1 - correctedLower(total - failed, total, level);
  return { lower, upper, level, method: "Wilson with continuity correction" };
}

function correctedLower(failed: number, total: number, level: number): number {
  if (failed === 0) return 0;
  const z2 = normalDeviate(level) ** 2;
  const p = failed / total;
  const width = Math.sqrt(z2 * (z2 - 2 - 1 / total + 4 * p * (total * (1 - p) + 1)));
  return Math.max(0, (2 * failed + z2 - 1 - width) / (2 * (total + z2)));
}
