/**
 * Limits of the mean of a Poisson count.
 *
 *   exact   quantiles of the gamma distribution with shapes O and O + 1 (Garwood 1936)
 *   mid-P   half the probability of O counts with each tail (Cohen and Yang 1994)
 *   Byar    O (1 - 1/(9 O) - z / (3 sqrt O))^3, upper with O + 1 (Breslow and Day 1987, volume II)
 * The lower limit is 0 at O = 0.
 *
 * In the tables of real coverage among the tests exact and Byar's 95% limits hold the true mean in
 * 95.1% or more of counts, mid-P limits in 92.8% or more.
 */
import { requireCount, requireLevel } from "./argument-checks.ts";
import { normalDeviate, poissonUpperTail } from "./distributions.ts";
import { findRoot } from "./find-root.ts";
import { gammaQuantile } from "./incomplete-gamma.ts";
import type { Interval } from "./interval.ts";

export type PoissonMethod = "exact" | "mid-P" | "Byar";

/** The limits of the mean behind `count`, by the exact method unless said. */
export function poissonInterval(
  count: number,
  { method = "exact", level = 0.95 }: { method?: PoissonMethod; level?: number } = {},
): Interval {
  requireCount("count", count);
  requireLevel(level);
  const limits = methods[method];
  if (limits === undefined) {
    throw new RangeError(`method is ${method}; expected exact, mid-P or Byar`);
  }
  const [lower, upper] = limits(count, level);
  return { lower, upper, level, method: names[method] };
}

const names: Readonly<Record<PoissonMethod, string>> = {
  exact: "exact Poisson (Garwood)",
  "mid-P": "Poisson mid-P",
  Byar: "Byar's approximation",
};

type Limits = (count: number, level: number) => readonly [number, number];

const methods: Readonly<Record<PoissonMethod, Limits>> = {
  exact: (count, level) => {
    const tail = (1 - level) / 2;
    const lower = count === 0 ? 0 : gammaQuantile(tail, count);
    return [lower, gammaQuantile(tail, count + 1, "upper")];
  },
  "mid-P": (count, level) => {
    const tail = (1 - level) / 2;
    const reach = gammaQuantile(tail / 10, count + 1, "upper");
    const at = (wanted: number) =>
      findRoot((mean) => midUpperTail(count, mean) - wanted, { from: 0, to: reach });
    return [count === 0 ? 0 : at(tail), at(1 - tail)];
  },
  Byar: (count, level) => {
    const z = normalDeviate(level);
    const next = count + 1;
    const cube = (o: number, side: number) =>
      o * Math.max(0, 1 - 1 / (9 * o) + (side * z) / (3 * Math.sqrt(o))) ** 3;
    return [count === 0 ? 0 : cube(count, -1), cube(next, 1)];
  },
};

/** P(X > count) + P(X = count) / 2. */
function midUpperTail(count: number, mean: number): number {
  if (mean === 0) return count === 0 ? 0.5 : 0;
  return (poissonUpperTail(count, mean) + poissonUpperTail(count + 1, mean)) / 2;
}
