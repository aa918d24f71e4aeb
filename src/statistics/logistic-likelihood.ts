/**
 * The log-likelihood of logistic regression with its score and information:
 *   ln L = sum w [y eta - ln(1 + e^eta)],  score = X'w(y - p),  information = X' diag(w p (1 - p)) X.
 * By compiled loops where there are any (`kernels/`), else by plain ones. In these, of rows without a weight
 * the logarithms of 1 + e^-|eta| are taken together, of the product over hundreds.
 */
import { tiledLogistic } from "./kernels/tiled-logistic.ts";
import type { LogisticData } from "./logistic-data.ts";
import type { Evaluation } from "./newton.ts";
import { columnProducts, linearPredictor, mirror, plainProduct } from "./weighted-product.ts";

export interface LogisticEvaluation extends Evaluation {
  readonly probabilities: Float64Array;
  /** w p (1 - p) of each row. */
  readonly variances: Float64Array;
}

/** A product this large has its logarithm taken; every factor is at most 2. */
const LARGE = 1e300;

/** Evaluates the likelihood at the given coefficients. */
export function logisticLikelihood(
  data: LogisticData,
  coefficients: ArrayLike<number>,
): LogisticEvaluation {
  const tiled = tiledLogistic(data, coefficients);
  if (tiled === undefined) return plainLogisticLikelihood(data, coefficients);
  mirror(tiled.information, data.columns.length);
  return tiled;
}

/** The same without the compiled loops. */
export function plainLogisticLikelihood(
  data: LogisticData,
  coefficients: ArrayLike<number>,
): LogisticEvaluation {
  const predictor = linearPredictor(data.columns, coefficients, data.rows);
  const probabilities = new Float64Array(data.rows);
  const variances = new Float64Array(data.rows);
  const residuals = new Float64Array(data.rows);
  let logLikelihood = 0;
  let product = 1;
  for (let i = 0; i < data.rows; i++) {
    const eta = predictor[i]! + data.offset[i]!;
    const small = Math.exp(-Math.abs(eta));
    const larger = 1 / (1 + small);
    const p = eta >= 0 ? larger : small * larger;
    const weight = data.weight[i]!;
    const y = data.outcome[i]!;
    logLikelihood += weight * (y * eta - Math.max(eta, 0));
    if (weight === 1) product *= 1 + small;
    else logLikelihood -= weight * Math.log(1 + small);
    if (product > LARGE) {
      logLikelihood -= Math.log(product);
      product = 1;
    }
    probabilities[i] = p;
    variances[i] = weight * small * larger * larger;
    residuals[i] = weight * (y - p);
  }
  return {
    logLikelihood: logLikelihood - Math.log(product),
    score: columnProducts(data.columns, residuals),
    information: plainProduct(data.columns, variances),
    probabilities,
    variances,
  };
}
