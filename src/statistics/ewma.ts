/**
 * The exponentially weighted moving average of failures (Roberts, Technometrics 1959;1:239), with
 * limits from the exact variance at each operation.
 *
 * With a the weight of the newest outcome, z_t = a y_t + (1 - a) z_(t-1). Under the expected risks
 * p_t its mean is m_t = a p_t + (1 - a) m_(t-1), its variance v_t = a^2 p_t (1 - p_t) +
 * (1 - a)^2 v_(t-1); limits are m_t -+ width sqrt(v_t), within 0 and 1. With one risk for all they
 * are p -+ width sqrt(p (1 - p) a / (2 - a) (1 - (1 - a)^(2t))).
 */
import { readEvent, requireBetween, requireSameLength } from "./argument-checks.ts";
import { requireRisk, requireRisks } from "./count-distributions.ts";

export interface EwmaSeries {
  /** 1 failed, 0 not, in the order of operation. */
  readonly failed: ArrayLike<number | boolean>;
  /** The expected risk of each. */
  readonly risk: ArrayLike<number>;
  /** The weight of the newest outcome, from above 0 to 1. */
  readonly newest: number;
  /** Limits in standard deviations; 3 unless said. */
  readonly width?: number;
  /** The value before the first operation; the first risk unless said. */
  readonly start?: number;
}

export interface EwmaPath {
  readonly values: Float64Array;
  /** The average of the expected risks, weighted alike. */
  readonly expected: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** Positions at which the value lies beyond a limit. */
  readonly signals: readonly number[];
}

/** The path; every column is empty without operations. */
export function ewma(series: EwmaSeries): EwmaPath {
  const { failed, risk, newest, width = 3 } = series;
  requireSameLength({ failed, risk });
  requireRisks("risk", risk);
  requireBetween("newest", newest, 0, 1 + Number.EPSILON);
  requireBetween("width", width, 0, Infinity);
  const start = series.start ?? risk[0] ?? 0;
  requireRisk("start", start);
  const column = () => new Float64Array(risk.length);
  const path = { values: column(), expected: column(), lower: column(), upper: column() };
  const signals: number[] = [];
  let [value, mean, variance] = [start, start, 0];
  for (let i = 0; i < risk.length; i++) {
    value += newest * (readEvent(failed[i], i) - value);
    mean += newest * (risk[i]! - mean);
    variance = newest ** 2 * risk[i]! * (1 - risk[i]!) + (1 - newest) ** 2 * variance;
    const half = width * Math.sqrt(variance);
    path.values[i] = value;
    path.expected[i] = mean;
    path.lower[i] = Math.max(0, mean - half);
    path.upper[i] = Math.min(1, mean + half);
    if (value < path.lower[i]! || value > path.upper[i]!) signals.push(i);
  }
  return { ...path, signals };
}
