/**
 * Firth's penalised logistic regression, for few events or a separated outcome (Heinze and Schemper
 * 2002). The penalty's part of the score is X' h (1/2 - p), h the leverages w p (1 - p) x' I^-1 x: as if
 * each row were given half an event and half a non-event, times its leverage. In a saturated two by two
 * table it adds 1/2 to each cell. Limits and tests are those of the profile penalised likelihood.
 */
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
  const data = logisticData(input);
  const size = data.columns.length;
  const start = new Float64Array(size);
  const [dependent] = cholesky(logisticLikelihood(data, start).information).dependent;
  if (dependent !== undefined) {
    const name = data.names[dependent];
    throw new RangeError(
      `${name} is constant or depends on the covariates before it; leave it out`,
    );
  }
  const { spread, names } = data;
  const evaluate = (coefficients: Float64Array) => penalised(data, coefficients);
  const fit = maximisePenalised(evaluate, { start, spread });
  const held = Array.from({ length: size - 1 }, (_, j) => j + 1);
  const none = maximisePenalised(evaluate, { start, spread, held });
  const rise = Math.max(0, 2 * (fit.penalisedLogLikelihood - none.penalisedLogLikelihood));
  return {
    coefficients: firthCoefficients({ names, fit, evaluate, spread, level }),
    penalisedLogLikelihood: fit.penalisedLogLikelihood,
    likelihoodRatio: {
      statistic: rise,
      degreesOfFreedom: size - 1,
      pValue: chiSquareUpperTail(rise, size - 1),
    },
    converged: fit.converged,
    probabilities: fit.evaluation.probabilities,
    rows: data.rows,
    events: data.events,
    level,
  };
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
