/**
 * The ratio of observed to expected failures, with exact Poisson limits and tests.
 *
 * The expected count is taken as known: it comes from a model fitted on other eyes, or from a
 * published figure. Limits are those of the count (Garwood 1936) over the expected count; z is
 * (O - E) / sqrt E (Breslow and Day, Statistical Methods in Cancer Research, volume II, 1987).
 *
 * In the tables of real coverage among the tests the exact 95% limits hold a true ratio of 1 in 96
 * to 99.6%: they are too wide where eyes have high risks, and those that go by the risk of each eye
 * are narrower.
 */
import { refuseNumber } from "./argument-checks.ts";
import { poissonCounts } from "./count-distributions.ts";
import { type CountTest, countTest } from "./count-test.ts";
import type { Interval } from "./interval.ts";
import { type PoissonMethod, poissonInterval } from "./poisson-interval.ts";

export interface ObservedExpected extends Interval, CountTest {
  readonly ratio: number;
  readonly observed: number;
  readonly expected: number;
  readonly z: number;
}

/** The ratio of `observed` to `expected`; null, not estimable, when nothing was expected. */
export function observedExpected(
  observed: number,
  expected: number,
  options: { method?: PoissonMethod; level?: number } = {},
): ObservedExpected | null {
  if (!(expected >= 0 && expected < Infinity)) refuseNumber("expected", expected, 0);
  const limits = poissonInterval(observed, options);
  if (expected === 0) return null;
  return {
    ...limits,
    ...countTest(observed, poissonCounts(expected)),
    ratio: observed / expected,
    observed,
    expected,
    z: (observed - expected) / Math.sqrt(expected),
    lower: limits.lower / expected,
    upper: limits.upper / expected,
  };
}
