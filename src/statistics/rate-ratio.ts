/**
 * The ratio of two Poisson rates, exactly.
 *
 * Given the sum of both counts, the first is binomial with share r t1 / (r t1 + t2), where t1 and
 * t2 are the exposures and r the rate ratio; the Clopper–Pearson limits of the share become
 * limits of the ratio (Przyborowski and Wilenski 1940; Sahai and Khurshid 1996). The test is the
 * exact binomial one at r = 1. The exposures may be eyes, person-time, or expected counts.
 *
 * The exact 95% limits hold a ratio of 1 in 95.9% or more of counts, those by mid-P in 95.1% or
 * more (counted in the tables of real coverage among the tests).
 */
import { refuseNumber, requireCount } from "./argument-checks.ts";
import { clopperPearsonInterval } from "./clopper-pearson-interval.ts";
import { binomialCounts } from "./count-distributions.ts";
import { type CountTest, countTest } from "./count-test.ts";
import type { Interval } from "./interval.ts";
import { midPInterval } from "./mid-p-interval.ts";

export interface Rate {
  readonly events: number;
  /** What the events are counted over, above 0. */
  readonly exposure: number;
}

export interface RateRatio extends Interval, CountTest {
  /** The first rate over the second; Infinity where only the second has no events. */
  readonly ratio: number;
}

/** The first rate over the second; null, not estimable, when neither has an event. */
export function rateRatio(
  { first, second }: { first: Rate; second: Rate },
  { level = 0.95, method = "exact" }: { level?: number; method?: "exact" | "mid-P" } = {},
): RateRatio | null {
  requireRate("first", first);
  requireRate("second", second);
  const total = first.events + second.events;
  const interval = method === "exact" ? clopperPearsonInterval : midPInterval;
  const shareOfFirst = interval(first.events, total, level);
  const shareOfSecond = interval(second.events, total, level);
  if (shareOfFirst === null || shareOfSecond === null) return null;
  const odds = ({ lower }: Interval) => lower / (1 - lower);
  const exposures = second.exposure / first.exposure;
  const expectedShare = first.exposure / (first.exposure + second.exposure);
  return {
    ...countTest(first.events, binomialCounts(total, expectedShare)),
    ratio: first.events / first.exposure / (second.events / second.exposure),
    lower: odds(shareOfFirst) * exposures,
    // by the other share, which has its digits where the first is nearly all
    upper: exposures / odds(shareOfSecond),
    level,
    method: method === "exact" ? "exact conditional rate ratio" : "mid-P conditional rate ratio",
  };
}

function requireRate(name: string, { events, exposure }: Rate): void {
  requireCount(`${name}.events`, events);
  if (!(exposure > 0 && exposure < Infinity)) {
    if (typeof exposure !== "number") refuseNumber(`${name}.exposure`, exposure, 0);
    throw new RangeError(`${name}.exposure is ${exposure}; expected a number above 0`);
  }
}
