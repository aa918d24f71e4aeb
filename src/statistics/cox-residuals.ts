/**
 * Residuals of a Cox model.
 *
 * Martingale: events less the cumulative hazard lived through, delta - exp(x b) H (Therneau, Grambsch
 * and Fleming 1990); they sum to 0. Deviance: the same made nearly symmetric about 0, sign(M) sqrt(-2 [M +
 * delta ln(delta - M)]), so that rows that fit badly stand out (same source). Schoenfeld: at each event
 * time, the covariates of those who had the event less their expectation (Schoenfeld 1982). What a row
 * does to the coefficients is in `cox-influence.ts`.
 */
import { type CoxEvaluation, rowHazards } from "./cox-likelihood.ts";
import type { CoxFit } from "./cox-regression.ts";
import { expectedCovariate } from "./cox-score-residuals.ts";

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

/** One residual per row given; 0 for rows that were at risk at no event. */
export function devianceResiduals(fit: CoxFit): Float64Array {
  const isEvent = new Uint8Array(fit.data.total);
  fit.data.order.forEach((row, i) => {
    isEvent[row] = fit.data.isEvent[i]!;
  });
  return martingaleResiduals(fit).map((residual, row) => {
    const surprise = isEvent[row] === 1 ? Math.log1p(-residual) : 0;
    return Math.sign(residual) * Math.sqrt(Math.max(0, -2 * (residual + surprise)));
  });
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
  const { deathWeight, blockStart, deaths } = data;
  const sums = data.columns.map((column, c) => {
    const { mean } = expectedCovariate(evaluation, { c, deathWeight });
    return mean.map((expected, b) => {
      let sum = 0;
      for (let i = blockStart[b]!; i < blockStart[b]! + deaths[b]!; i++) {
        sum += data.weight[i]! * (column[i]! - expected);
      }
      return sum;
    });
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
