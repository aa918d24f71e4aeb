/**
 * Residuals of a Cox model.
 *
 * Martingale: events less the cumulative hazard lived through, delta - exp(x b) H (Therneau, Grambsch
 * and Fleming 1990); they sum to 0. Schoenfeld: at each event time, the
 * covariates of those who had the event less their expectation (Schoenfeld 1982).
 */
import { type CoxEvaluation, rowHazards } from "./cox-likelihood.ts";
import type { CoxFit } from "./cox-regression.ts";
import { meanParts } from "./cox-score-residuals.ts";

/** One residual per row given; 0 for rows that were at risk at no event. */
export function martingaleResiduals(fit: CoxFit): Float64Array {
  const { data } = fit;
  const evaluation = requireEvaluation(fit);
  const hazards = rowHazards(data, evaluation.terms);
  const residuals = new Float64Array(data.total);
  data.order.forEach((row, i) => {
    const expected = (evaluation.risk[i]! / data.weight[i]!) * hazards[i]!;
    residuals[row] = data.isEvent[i]! - expected;
  });
  return residuals;
}

export interface SchoenfeldResiduals {
  /** Per event time of each stratum: its time, and the sum over its events per covariate. */
  readonly time: Float64Array;
  readonly sums: readonly Float64Array[];
}

/** The residuals summed over the events of each event time (weighted by case weights). */
export function schoenfeldResiduals(fit: CoxFit): SchoenfeldResiduals {
  const { data } = fit;
  const evaluation = requireEvaluation(fit);
  const sums = data.columns.map((column, c) => {
    const { mean } = meanParts(data, evaluation, { c, ties: fit.ties as "Efron" });
    const values = new Float64Array(data.time.length);
    for (let i = 0; i < data.rows; i++) {
      if (data.isEvent[i] === 0) continue;
      const block = data.lastBlock[i]!;
      values[block] = values[block]! + data.weight[i]! * (column[i]! - mean[block]!);
    }
    return values;
  });
  return { time: data.time, sums };
}

/** The likelihood kept with the fit, which exact ties do not have. */
export function requireEvaluation(fit: CoxFit): CoxEvaluation {
  if (fit.evaluation === null) {
    throw new RangeError("ties are exact; expected a fit with Efron's or Breslow's ties");
  }
  return fit.evaluation;
}
