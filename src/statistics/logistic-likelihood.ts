/**
 * The log-likelihood of logistic regression with its score and information:
 *   ln L = sum w [y eta - ln(1 + e^eta)],  score = X'w(y - p),  information = X' diag(w p (1 - p)) X.
 */
import type { LogisticData } from "./logistic-data.ts";
import type { Evaluation } from "./newton.ts";
import { columnProducts, linearPredictor, weightedProduct } from "./weighted-product.ts";

export interface LogisticEvaluation extends Evaluation {
  readonly probabilities: Float64Array;
  /** w p (1 - p) of each row. */
  readonly variances: Float64Array;
}

/** Evaluates the likelihood at the given coefficients. */
export function logisticLikelihood(
  data: LogisticData,
  coefficients: ArrayLike<number>,
): LogisticEvaluation {
  const predictor = linearPredictor(data.columns, coefficients, data.rows);
  const probabilities = new Float64Array(data.rows);
  const variances = new Float64Array(data.rows);
  const residuals = new Float64Array(data.rows);
  let logLikelihood = 0;
  for (let i = 0; i < data.rows; i++) {
    const eta = predictor[i]! + data.offset[i]!;
    const small = Math.exp(-Math.abs(eta));
    const p = eta >= 0 ? 1 / (1 + small) : small / (1 + small);
    const weight = data.weight[i]!;
    const y = data.outcome[i]!;
    logLikelihood += weight * (y * eta - Math.max(eta, 0) - Math.log(1 + small));
    probabilities[i] = p;
    variances[i] = (weight * small) / (1 + small) ** 2;
    residuals[i] = weight * (y - p);
  }
  return {
    logLikelihood,
    score: columnProducts(data.columns, residuals),
    information: weightedProduct(data.columns, variances),
    probabilities,
    variances,
  };
}
