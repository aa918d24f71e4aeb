/**
 * The risk-adjusted CUSUM of a series of operations (Steiner et al., Biostatistics 2000;1:441): the
 * log-likelihood of changed odds of failure, held at 0 while it speaks for the expected odds. An
 * odds ratio above 1 watches for deterioration; one below 1 for improvement, and its values are
 * given negative, as they are drawn, downwards.
 */
import { readEvent, requireSameLength } from "./argument-checks.ts";
import { requireRisk } from "./count-distributions.ts";
import { type CusumOptions, type CusumPath, cusum } from "./cusum.ts";
import { riskAdjustedWeights } from "./cusum-weights.ts";

export interface RiskAdjustedSeries extends CusumOptions {
  /** 1 failed, 0 not, in the order of operation. */
  readonly failed: ArrayLike<number | boolean>;
  /** The expected risk of each. */
  readonly risk: ArrayLike<number>;
  readonly oddsRatio: number;
}

export interface RiskAdjustedCusum extends CusumPath {
  /** What each operation added. */
  readonly increments: Float64Array;
}

/** The chart; `values` and `increments` are turned over when `oddsRatio` is below 1. */
export function riskAdjustedCusum(series: RiskAdjustedSeries): RiskAdjustedCusum {
  const { failed, risk, oddsRatio } = series;
  requireSameLength({ failed, risk });
  const increments = new Float64Array(risk.length);
  // what a failure weighs more than a success does not depend on the risk
  const more = risk.length === 0 ? 0 : moreForFailure(risk[0]!, oddsRatio);
  for (let i = 0; i < increments.length; i++) {
    const p = risk[i]!;
    if (!(p >= 0 && p <= 1)) refuseRisk(p, i);
    const success = -Math.log1p((oddsRatio - 1) * p);
    increments[i] = readEvent(failed[i], i) === 1 ? more + success : success;
  }
  const { values, signals } = cusum(increments, series);
  const turned = (column: Float64Array) =>
    oddsRatio > 1 ? column : column.map((value) => (value === 0 ? 0 : -value));
  return { values: turned(values), increments: turned(increments), signals };
}

/** Apart from the loop, which the making of its text would slow by half. */
function refuseRisk(risk: number, row: number): void {
  requireRisk(`risk[${row}]`, risk);
}

/** Of any risk; refuses one that is no probability, and an odds ratio that detects no change. */
function moreForFailure(risk: number, oddsRatio: number): number {
  riskAdjustedWeights(risk, oddsRatio);
  return Math.log(oddsRatio);
}
