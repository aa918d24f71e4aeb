/**
 * Logistic regression by maximum likelihood.
 *
 * logit P(event) = b0 + x b; Newton's method on the log-likelihood (Cox 1958). An intercept is always
 * fitted, first, under the name "intercept". Weights count a row so many times. With `cluster`,
 * standard errors are also given from score residuals summed by cluster, for two eyes of a patient.
 *
 * A covariate that is constant or a linear combination of those before it has no coefficient (NaN) and
 * is named in `aliased`. Where the outcome is separated there is no maximum: the coefficients that move
 * without end are named in `infinite`, and their numbers mean nothing (Albert and Anderson 1984); use
 * `logisticFirth`.
 */
import { aboutMeans, atOrigin, covarianceAtOrigin } from "./about-means.ts";
import { requireLevel } from "./argument-checks.ts";
import { clusteredCovariance } from "./cluster-sums.ts";
import { chiSquareUpperTail } from "./distributions.ts";
import { codeGroups, type GroupLabel } from "./group-codes.ts";
import { type LogisticData, type LogisticInput, logisticData } from "./logistic-data.ts";
import { type LogisticEvaluation, logisticLikelihood } from "./logistic-likelihood.ts";
import { maximise, type NewtonResult } from "./newton.ts";
import { type ChiSquare, type Coefficient, describeCoefficients } from "./regression-table.ts";
import { cholesky, inverse } from "./symmetric-solve.ts";

/** Standard deviations from 0 beyond which a covariate is fitted about its mean (`about-means.ts`). */
const FAR = 10;

export interface LogisticOptions extends LogisticInput {
  readonly cluster?: ArrayLike<GroupLabel>;
  readonly level?: number;
}

export interface LogisticFit {
  /** The intercept, then one per covariate; estimates are log odds ratios. */
  readonly coefficients: readonly Coefficient[];
  readonly covariance: Float64Array;
  readonly robustCovariance: Float64Array | null;
  readonly logLikelihood: number;
  /** With the intercept alone. */
  readonly nullLogLikelihood: number;
  readonly likelihoodRatio: ChiSquare;
  /** Akaike's criterion: -2 ln L + 2 coefficients. */
  readonly akaike: number;
  readonly converged: boolean;
  readonly iterations: number;
  readonly aliased: readonly string[];
  readonly infinite: readonly string[];
  readonly rows: number;
  readonly events: number;
  readonly level: number;
  /** The fitted probability of each row. */
  readonly probabilities: Float64Array;
}

/** Fits the model; refuses missing values and an outcome that is not 0 or 1, by row. */
export function logisticRegression(options: LogisticOptions): LogisticFit {
  const { level = 0.95 } = options;
  requireLevel(level);
  const { centred: all, means } = aboutMeans(logisticData(options), FAR);
  const first = startOf(all, options.offset !== undefined);
  const whole = logisticLikelihood(all, first);
  const { dependent } = cholesky(whole.information);
  const isUsed = (_: unknown, c: number) => !dependent.includes(c);
  const data = { ...all, columns: all.columns.filter(isUsed), spread: all.spread.filter(isUsed) };
  const start = first.filter(isUsed);
  const known = dependent.length === 0 ? { start, evaluated: whole } : { start };
  const fit = maximise((b) => logisticLikelihood(data, b), { spread: data.spread, ...known });
  const nullLogLikelihood = interceptAlone(data, options.offset !== undefined);
  const covariance = inverse(cholesky(fit.evaluation.information, 1e-14));
  const robust = robustCovariance(data, { fit, covariance, options });
  const degreesOfFreedom = Math.max(0, data.columns.length - 1);
  const statistic = 2 * (fit.evaluation.logLikelihood - nullLogLikelihood);
  const found = { fit, covariance, robust, means: means.filter(isUsed) };
  return {
    ...describeCoefficients({
      names: all.names,
      isUsed: all.names.map(isUsed),
      level,
      ...there(found),
    }),
    logLikelihood: fit.evaluation.logLikelihood,
    nullLogLikelihood,
    likelihoodRatio: {
      statistic: Math.max(0, statistic),
      degreesOfFreedom,
      pValue: chiSquareUpperTail(statistic, degreesOfFreedom),
    },
    akaike: 2 * data.columns.length - 2 * fit.evaluation.logLikelihood,
    converged: fit.converged,
    iterations: fit.iterations,
    rows: data.rows,
    events: data.events,
    probabilities: fit.evaluation.probabilities,
  };
}

/** A fit about the means of covariates far from 0 as one at the origin, where the intercept is told of. */
function there(found: {
  fit: NewtonResult<LogisticEvaluation>;
  covariance: Float64Array;
  robust: Float64Array | null;
  means: Float64Array;
}) {
  const { fit, covariance, robust, means } = found;
  if (means.every((mean) => mean === 0)) return { fit, covariance, robust };
  // the intercept goes wherever a covariate far from 0 goes
  const isPulled = fit.infinite.some((c) => means[c] !== 0);
  return {
    fit: {
      coefficients: atOrigin(fit.coefficients, means),
      infinite: isPulled ? [...new Set([0, ...fit.infinite])] : fit.infinite,
    },
    covariance: covarianceAtOrigin(covariance, means),
    robust: robust === null ? null : covarianceAtOrigin(robust, means),
  };
}

/** Coefficients 0, and without an offset the intercept that gives about the overall share. */
function startOf(data: LogisticData, hasOffset: boolean): Float64Array {
  const start = new Float64Array(data.columns.length);
  if (!hasOffset) start[0] = Math.log((data.events + 0.5) / (totalOf(data) - data.events + 0.5));
  return start;
}

function totalOf({ weight }: LogisticData): number {
  let total = 0;
  for (let i = 0; i < weight.length; i++) total += weight[i]!;
  return total;
}

/** The largest log-likelihood with the intercept alone: without an offset, that of the overall share. */
function interceptAlone(data: LogisticData, hasOffset: boolean): number {
  if (hasOffset) {
    const intercept = { ...data, columns: data.columns.slice(0, 1) };
    const fit = maximise((b) => logisticLikelihood(intercept, b), { spread: [1] });
    return fit.evaluation.logLikelihood;
  }
  const total = totalOf(data);
  const part = (count: number) => (count === 0 ? 0 : count * Math.log(count / total));
  return part(data.events) + part(total - data.events);
}

function robustCovariance(
  data: LogisticData,
  at: {
    fit: NewtonResult<LogisticEvaluation>;
    covariance: Float64Array;
    options: LogisticOptions;
  },
): Float64Array | null {
  const { cluster } = at.options;
  if (cluster === undefined) return null;
  if (cluster.length !== data.rows) {
    throw new RangeError(`cluster has ${cluster.length} values, outcome has ${data.rows}`);
  }
  const { probabilities } = at.fit.evaluation;
  const residuals = data.columns.map((column) =>
    column.map((x, i) => data.weight[i]! * (data.outcome[i]! - probabilities[i]!) * x),
  );
  return clusteredCovariance(residuals, codeGroups(cluster, undefined, "cluster"), at.covariance);
}
