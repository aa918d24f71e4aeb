/**
 * The baseline hazard of a Cox model, and survival for given covariates.
 *
 * The cumulative hazard at covariates x is the sum over event times of the terms' weight / denominator
 * (Breslow 1974; with Efron's ties, Efron's denominators) times exp(x b); survival is its exponential
 * with a minus. By stratum. The variance of ln S, for a model without clusters, adds the variance of the
 * sum, sum of weight / denominator^2, and that of the coefficients, q' B q with q the integral of
 * (x - xbar) dH (Tsiatis 1981; Link 1984).
 */
import { requireSameLength } from "./argument-checks.ts";
import { cumulate } from "./cox-likelihood.ts";
import type { CoxFit } from "./cox-regression.ts";
import { requireEvaluation } from "./cox-residuals.ts";
import { expectedCovariate } from "./cox-score-residuals.ts";
import type { GroupLabel } from "./group-codes.ts";
import { survivalLimits } from "./survival-limits.ts";

export interface PredictedSurvival {
  /** The stratum's label; null in a model without strata. */
  readonly stratum: GroupLabel | null;
  readonly time: Float64Array;
  readonly hazard: Float64Array;
  readonly survival: Float64Array;
  /** Of `survival`, from the model's covariance. */
  readonly standardError: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
}

/**
 * Predicted cumulative hazard and survival at each event time of each stratum, for one value per
 * covariate; all 0 gives the baseline. Limits by the log-log transformation.
 */
export function coxSurvival(fit: CoxFit, covariates: readonly number[]): PredictedSurvival[] {
  const { data } = fit;
  requireSameLength({ covariates, coefficients: fit.coefficients });
  const used = covariates.filter((_, c) => !fit.aliased.includes(fit.coefficients[c]!.name));
  const offset = used.map((x, c) => x - data.means[c]!);
  const { hazard, variance } = predictedHazard(fit, offset);
  const labels = data.strata.length === 0 ? [null] : data.strata;
  return labels.map((stratum, s) => {
    const blocks = Array.from(data.stratum.keys()).filter((b) => data.stratum[b] === s);
    const pick = (values: Float64Array) => Float64Array.from(blocks, (b) => values[b]!);
    const survival = pick(hazard).map((h) => Math.exp(-h));
    const errors = pick(variance).map(Math.sqrt);
    const limitsAt = survivalLimits("log-log", fit.level);
    const bounds = Array.from(survival, (value, j) =>
      limitsAt({ survival: value, relativeError: errors[j]!, atRisk: fit.rows }),
    );
    return {
      stratum,
      time: pick(data.time),
      hazard: pick(hazard),
      survival,
      standardError: survival.map((value, j) => value * errors[j]!),
      lower: Float64Array.from(bounds, ([lower]) => lower),
      upper: Float64Array.from(bounds, ([, upper]) => upper),
    };
  });
}

/** The cumulative hazard at covariates given as distances from the means, and its variance. */
function predictedHazard(fit: CoxFit, offset: readonly number[]) {
  const { data } = fit;
  const evaluation = requireEvaluation(fit);
  const estimates = fit.coefficients.filter(({ name }) => !fit.aliased.includes(name));
  const risk = Math.exp(offset.reduce((sum, x, c) => sum + x * estimates[c]!.estimate, 0));
  const base = cumulate(data, evaluation.terms.hazard);
  const spread = cumulate(data, evaluation.terms.square);
  const drift = data.columns.map((_, c) => {
    const parts = expectedCovariate(evaluation, { c, deathWeight: data.deathWeight });
    const means = cumulate(data, parts.hazard);
    return base.map((h, b) => offset[c]! * h - means[b]!);
  });
  const covariance = usedCovariance(fit);
  const size = data.columns.length;
  const variance = spread.map((value, b) => {
    let sum = value;
    for (let j = 0; j < size; j++) {
      for (let k = 0; k < size; k++)
        sum += drift[j]![b]! * covariance[j * size + k]! * drift[k]![b]!;
    }
    return sum * risk * risk;
  });
  return { hazard: base.map((h) => h * risk), variance };
}

/** The model's covariance without the rows and columns of aliased covariates. */
function usedCovariance(fit: CoxFit): Float64Array {
  const size = fit.coefficients.length;
  const isUsed = (c: number) => !fit.aliased.includes(fit.coefficients[c]!.name);
  return fit.covariance.filter((_, cell) => isUsed(Math.floor(cell / size)) && isUsed(cell % size));
}
