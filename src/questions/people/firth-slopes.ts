import { maximisePenalised } from "../../statistics/firth-newton.ts";
import { type LogisticData, logisticData } from "../../statistics/logistic-data.ts";
import { logisticLikelihood } from "../../statistics/logistic-likelihood.ts";
import { cholesky, inverse } from "../../statistics/symmetric-solve.ts";
import { columnProducts } from "../../statistics/weighted-product.ts";

/**
 * The slopes of a logistic model by Firth's penalised likelihood (1993), without the profile limits and
 * tests of `logisticFirth`, which take a hundred times as long: a model is fitted for each person. The
 * covariates must neither be constant nor depend on each other.
 */
export function firthSlopes(
  outcome: readonly boolean[],
  covariates: readonly (readonly number[])[],
): readonly number[] {
  const data = logisticData({ outcome, covariates });
  const start = new Float64Array(data.columns.length);
  const evaluate = (coefficients: Float64Array) => penalised(data, coefficients);
  const { coefficients } = maximisePenalised(evaluate, { start, spread: data.spread });
  return Array.from(coefficients.slice(1));
}

/** The score with Firth's penalty: h (1/2 - p) for each row, h its leverage. */
function penalised(data: LogisticData, coefficients: Float64Array) {
  const evaluation = logisticLikelihood(data, coefficients);
  const covariance = inverse(cholesky(evaluation.information, 1e-14));
  const half = evaluation.probabilities.map((p, row) => {
    const weight = evaluation.variances[row] ?? 0;
    return leverage(data, covariance, row) * weight * (0.5 - p);
  });
  const penalty = columnProducts(data.columns, half);
  const penalisedScore = evaluation.score.map((value, j) => value + (penalty[j] ?? 0));
  return { ...evaluation, penalisedScore };
}

function leverage({ columns }: LogisticData, covariance: Float64Array, row: number): number {
  const values = columns.map((column) => column[row] ?? 0);
  const size = values.length;
  return values.reduce(
    (sum, value, j) =>
      sum + values.reduce((s, other, k) => s + value * other * (covariance[j * size + k] ?? 0), 0),
    0,
  );
}
