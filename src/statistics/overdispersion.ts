/**
 * How much more units differ from a target than chance alone explains, and funnel limits widened by
 * it (Spiegelhalter, Statistics in Medicine 2005;24:1185, section 5; Quality and Safety in Health
 * Care 2005;14:347).
 *
 * With z_i = (y_i - target) / s_i for I units, winsorised (values beyond the chosen quantiles moved
 * to them, so that the odd unit out does not widen the limits that should show it):
 *   phi = sum z_i^2 / I                                           multiplicative, on the variance
 *   tau^2 = max(0, (I phi - (I - 1)) / (sum w - sum w^2 / sum w)), w = 1 / s_i^2       additive
 * the latter as in DerSimonian and Laird (1986). Limits are target -+ z s sqrt(phi), never narrower
 * than by chance, or target -+ z sqrt(s^2 + tau^2).
 *
 * Of ten units that do not differ the test at 5% is wrong in 5% or fewer. Of ten that differ by an
 * intraclass correlation of 0.02, 2 to 8% lie outside 95% limits widened by tau^2, and up to 15%
 * where under one failure a unit is expected, since normal limits have no room upwards there
 * (counted in the tables of real coverage among the tests).
 */
import {
  requireBetween,
  requireLevel,
  requireNumbers,
  requireSameLength,
} from "./argument-checks.ts";
import { chiSquareUpperTail, normalDeviate } from "./distributions.ts";
import type { FunnelLimits } from "./funnel-limits.ts";
import { sampleQuantile } from "./sample-quantile.ts";

export interface BenchmarkedUnits {
  /** Rate, or observed over expected, of each unit. */
  readonly values: ArrayLike<number>;
  /** Standard error of each if the target were its true value, above 0. */
  readonly standardErrors: ArrayLike<number>;
  readonly target: number;
}

export interface Overdispersion {
  readonly z: Float64Array;
  /** The z scores after winsorising. */
  readonly winsorised: Float64Array;
  /** Sum of squares of `z`, not winsorised. */
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  /** Of the chi-square test that all units have the target as their true value. */
  readonly pValue: number;
  readonly phi: number;
  readonly tauSquared: number;
}

/** The standard errors of rates of `totals` eyes each, at a true rate of `target`. */
export function proportionErrors(target: number, totals: ArrayLike<number>): Float64Array {
  requireBetween("target", target, 0, 1);
  requireNumbers("totals", totals, 0);
  return Float64Array.from(totals, (total) => Math.sqrt((target * (1 - target)) / total));
}

/** The standard errors of observed over expected at a true ratio of 1. */
export function ratioErrors(expected: ArrayLike<number>): Float64Array {
  requireNumbers("expected", expected, 0);
  return Float64Array.from(expected, (count) => 1 / Math.sqrt(count));
}

/**
 * The dispersion of units; null for no units. `winsorise` is the share moved in at either end.
 * `isEstimated`: the target was made from these very units, which takes a degree of freedom.
 */
export function overdispersion(
  units: BenchmarkedUnits,
  { winsorise = 0.1, isEstimated = false }: { winsorise?: number; isEstimated?: boolean } = {},
): Overdispersion | null {
  const z = zScores(units);
  const count = z.length;
  if (count === 0) return null;
  const winsorised = winsoriseValues(z, winsorise);
  const statistic = sumOf(z, (value) => value * value);
  const phi = sumOf(winsorised, (value) => value * value) / count;
  const degreesOfFreedom = isEstimated ? count - 1 : count;
  const pValue = chiSquareUpperTail(statistic, degreesOfFreedom);
  const tauSquared = additiveVariance(phi, units.standardErrors);
  return { z, winsorised, statistic, degreesOfFreedom, pValue, phi, tauSquared };
}

/** (value - target) / standard error, for each unit. */
export function zScores({ values, standardErrors, target }: BenchmarkedUnits): Float64Array {
  requireSameLength({ values, standardErrors });
  requireNumbers("values", values);
  requireNumbers("target", [target]);
  requireNumbers("standardErrors", standardErrors, Number.MIN_VALUE);
  return Float64Array.from(values, (value, i) => (value - target) / standardErrors[i]!);
}

/**
 * Moves values beyond the quantiles at `share` and 1 - `share` to them; a share of 0 moves none.
 */
export function winsoriseValues(values: ArrayLike<number>, share: number): Float64Array {
  if (!(share >= 0 && share < 0.5)) {
    throw new RangeError(`the share to winsorise is ${share}; expected from 0 to below 0.5`);
  }
  const low = sampleQuantile(values, share) ?? 0;
  const high = sampleQuantile(values, 1 - share) ?? 0;
  return Float64Array.from(values, (value) => Math.min(high, Math.max(low, value)));
}

export interface WidenedUnit {
  readonly target: number;
  readonly standardError: number;
  /** How to widen: by the factor `phi` on the variance, or by adding `tauSquared`. */
  readonly by: { readonly phi: number } | { readonly tauSquared: number };
  /** The largest possible value: 1 for rates, Infinity for ratios. */
  readonly most: number;
}

/** Normal funnel limits widened for over-dispersion, within 0 and `most`. */
export function widenedFunnelLimits(unit: WidenedUnit, level = 0.95): FunnelLimits {
  const { target, standardError, by, most } = unit;
  requireLevel(level);
  requireNumbers("target", [target]);
  requireNumbers("standardError", [standardError], 0);
  if (!(most > 0)) throw new RangeError(`most is ${most}; expected a number above 0`);
  requireNumbers("the widening", ["phi" in by ? by.phi : by.tauSquared], 0);
  const variance = standardError ** 2;
  const widened = "phi" in by ? variance * Math.max(1, by.phi) : variance + by.tauSquared;
  const width = normalDeviate(level) * Math.sqrt(widened);
  return {
    lower: Math.max(0, target - width),
    upper: Math.min(most, target + width),
    hasLower: target - width > 0,
    hasUpper: target + width < most,
    level,
  };
}

function additiveVariance(phi: number, standardErrors: ArrayLike<number>): number {
  const weights = Float64Array.from(standardErrors, (error) => 1 / error ** 2);
  const sum = sumOf(weights, (w) => w);
  const spread = sum - sumOf(weights, (w) => w * w) / sum;
  const excess = phi * weights.length - (weights.length - 1);
  return weights.length < 2 ? 0 : Math.max(0, excess / spread);
}

function sumOf(values: Float64Array, of: (value: number) => number): number {
  return values.reduce((sum, value) => sum + of(value), 0);
}
