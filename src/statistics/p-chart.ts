/**
 * The p-chart: failure rates by period against a centre line, with limits by the size of each
 * period (Shewhart 1931).
 *
 * "three-sigma": centre -+ 3 sqrt(p (1 - p) / n), within 0 and 1, the limits of the trade; "exact":
 * interpolated binomial limits (as of a funnel) at the level of three sigma, 99.73%, unless said,
 * which hold at small periods too. The centre is the overall rate unless a target is given.
 *
 * With a few failures a period, up to 1.8% lie outside "three-sigma" limits where the rate is the
 * centre, and up to 0.7% outside "exact" ones (counted in the tables of real coverage among the
 * tests).
 */
import { requireBetween, requirePartOfWhole } from "./argument-checks.ts";
import { normalTwoSided } from "./distributions.ts";
import { type FunnelLimits, funnelPosition, proportionFunnelLimits } from "./funnel-limits.ts";
import type { Part } from "./two-by-two.ts";

const THREE_SIGMA = 1 - normalTwoSided(3);

export interface PChartPoint extends FunnelLimits {
  /** Failed over total; null for a period without eyes. */
  readonly rate: number | null;
  readonly position: ReturnType<typeof funnelPosition> | null;
}

export interface PChart {
  readonly centre: number;
  readonly points: readonly PChartPoint[];
}

export interface PChartOptions {
  /** The centre line, between 0 and 1; the overall rate unless said. */
  readonly target?: number;
  readonly limits?: "three-sigma" | "exact";
  /** For exact limits. */
  readonly level?: number;
}

/** The chart; null without eyes. With a centre of 0 or 1 every rate lies on it, inside. */
export function pChart(periods: readonly Part[], options: PChartOptions = {}): PChart | null {
  for (const { failed, total } of periods) requirePartOfWhole(failed, total);
  const total = periods.reduce((sum, period) => sum + period.total, 0);
  if (total === 0) return null;
  const { target, limits } = options;
  if (limits !== undefined && limits !== "three-sigma" && limits !== "exact") {
    throw new RangeError(`limits is ${String(limits)}; expected three-sigma or exact`);
  }
  if (target !== undefined) requireBetween("target", target, 0, 1);
  const centre = target ?? periods.reduce((sum, period) => sum + period.failed, 0) / total;
  return { centre, points: periods.map((period) => pointOf(period, centre, options)) };
}

function pointOf(period: Part, centre: number, options: PChartOptions): PChartPoint {
  const { limits = "three-sigma", level = THREE_SIGMA } = options;
  if (period.total === 0) {
    return {
      rate: null,
      position: null,
      lower: 0,
      upper: 1,
      hasLower: false,
      hasUpper: false,
      level,
    };
  }
  const rate = period.failed / period.total;
  const isCertain = centre === 0 || centre === 1;
  const band =
    limits === "exact" && !isCertain
      ? proportionFunnelLimits(centre, period.total, level)!
      : threeSigma(centre, period.total);
  return { ...band, rate, position: funnelPosition(rate, band) };
}

function threeSigma(centre: number, total: number): FunnelLimits {
  const width = 3 * Math.sqrt((centre * (1 - centre)) / total);
  return {
    lower: Math.max(0, centre - width),
    upper: Math.min(1, centre + width),
    hasLower: centre - width > 0,
    hasUpper: centre + width < 1,
    level: THREE_SIGMA,
  };
}
