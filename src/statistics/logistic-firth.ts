/**
 * Firth's penalised logistic regression, for few events or a separated outcome (Heinze and Schemper
 * 2002). The penalty's part of the score is X' h (1/2 - p), h the leverages w p (1 - p) x' I^-1 x: as if
 * each row were given half an event and half a non-event, times its leverage. In a saturated two by two
 * table it adds 1/2 to each cell. Limits and tests are those of the profile penalised likelihood.
 */
import { aboutMeans, atOrigin } from "./about-means.ts";
import { requireLevel } from "./argument-checks.ts";
import { chiSquareUpperTail } from "./distributions.ts";
import { type FirthCoefficient, firthCoefficients } from "./firth-coefficients.ts";
import { maximisePenalised, type PenalisedEvaluation } from "./firth-newton.ts";
import { type LogisticData, type LogisticInput, logisticData } from "./logistic-data.ts";
import { logisticLikelihood } from "./logistic-likelihood.ts";
import type { ChiSquare } from "./regression-table.ts";
import { cholesky, inverse } from "./symmetric-solve.ts";
import { columnProducts } from "./weighted-product.ts";

export interface LogisticFirthFit {
  /** The intercept, then one per covariate. */
  readonly coefficients: readonly FirthCoefficient[];
  readonly penalisedLogLikelihood: number;
  /** Penalised likelihood ratio against the intercept alone (the penalty that of the whole model). */
  readonly likelihoodRatio: ChiSquare;
  readonly converged: boolean;
  readonly probabilities: Float64Array;
  readonly rows: number;
  readonly events: number;
  readonly level: number;
}

/** Fits the model; throws a RangeError when a covariate is constant or collinear, naming it. */
export function logisticFirth(
  input: LogisticInput & { readonly level?: number },
): LogisticFirthFit {
  const { level = 0.95 } = input;
  requireLevel(level);
  const maximised = maximisedFirth(input);
  const { data, fit } = maximised;
  return {
    coefficients: coefficientsOf(maximised, level),
    penalisedLogLikelihood: fit.penalisedLogLikelihood,
    likelihoodRatio: likelihoodRatioOf(maximised),
    converged: fit.converged,
    probabilities: fit.evaluation.probabilities,
    rows: data.rows,
    events: data.events,
    level,
  };
}

/** The intercept from the likelihood at the origin, the others from that about the means. */
function coefficientsOf(maximised: Maximised, level: number): FirthCoefficient[] {
  const { given, means, data, evaluate, fit } = maximised;
  const { spread, names } = data;
  const [intercept, ...covariates] = names;
  const evaluateThere = (coefficients: Float64Array) => penalised(given, coefficients);
  const coefficients = atOrigin(fit.coefficients, means);
  const there = { ...fit, coefficients, evaluation: evaluateThere(coefficients) };
  const common = { names, spread, level };
  return [
    ...firthCoefficients({ ...common, fit: there, evaluate: evaluateThere, only: [intercept!] }),
    ...firthCoefficients({ ...common, fit, evaluate, only: covariates }),
  ];
}

export interface LogisticFirthEstimates {
  /** The intercept, then one per covariate, on the scale of log odds. */
  readonly estimates: Float64Array;
  readonly probabilities: Float64Array;
  readonly converged: boolean;
}

/**
 * The estimates alone: no limits and no tests, which take some hundred times as long, for a model that is
 * fitted many times over. Refuses what `logisticFirth` refuses.
 */
export function logisticFirthEstimates(input: LogisticInput): LogisticFirthEstimates {
  const { fit, means } = maximisedFirth(input);
  const { coefficients, converged, evaluation } = fit;
  const estimates = atOrigin(coefficients, means);
  return { estimates, probabilities: evaluation.probabilities, converged };
}

/** The penalised likelihood-ratio test of all covariates alone, as `logisticFirth` has it. */
export function logisticFirthTest(input: LogisticInput): ChiSquare {
  return likelihoodRatioOf(maximisedFirth(input));
}

type Maximised = ReturnType<typeof maximisedFirth>;

function likelihoodRatioOf({ data, evaluate, fit }: Maximised): ChiSquare {
  const size = data.names.length;
  const held = Array.from({ length: size - 1 }, (_, j) => j + 1);
  const start = new Float64Array(size);
  const none = maximisePenalised(evaluate, { start, spread: data.spread, held });
  const rise = Math.max(0, 2 * (fit.penalisedLogLikelihood - none.penalisedLogLikelihood));
  const degreesOfFreedom = size - 1;
  return { statistic: rise, degreesOfFreedom, pValue: chiSquareUpperTail(rise, degreesOfFreedom) };
}

/** The fit about the means of the covariates, with the data as they were given. */
function maximisedFirth(input: LogisticInput) {
  const given = logisticData(input);
  const { centred: data, means } = aboutMeans(given);
  const start = new Float64Array(data.columns.length);
  const [dependent] = cholesky(logisticLikelihood(data, start).information).dependent;
  if (dependent !== undefined) {
    const name = data.names[dependent];
    throw new RangeError(
      `${name} is constant or depends on the covariates before it; leave it out`,
    );
  }
  const evaluate = (coefficients: Float64Array) => penalised(data, coefficients);
  const fit = maximisePenalised(evaluate, { start, spread: data.spread });
  return { given, means, data, evaluate, fit };
}

function penalised(
  data: LogisticData,
  coefficients: Float64Array,
): PenalisedEvaluation & { readonly probabilities: Float64Array } {
  const evaluation = logisticLikelihood(data, coefficients);
  const covariance = inverse(cholesky(evaluation.information, 1e-14));
  const half = evaluation.probabilities.map(
    (p, i) => leverage(data, covariance, i) * evaluation.variances[i]! * (0.5 - p),
  );
  const penalty = columnProducts(data.columns, half);
  const penalisedScore = evaluation.score.map((value, j) => value + penalty[j]!);
  return { ...evaluation, penalisedScore };
}

/** x' I^-1 x of a row. */
function leverage({ columns }: LogisticData, covariance: Float64Array, row: number): number {
  const size = columns.length;
  let sum = 0;
  for (let j = 0; j < size; j++) {
    for (let k = 0; k < size; k++) {
      sum += columns[j]![row]! * covariance[j * size + k]! * columns[k]![row]!;
    }
  }
  return sum;
}
