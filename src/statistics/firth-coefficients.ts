/**
 * The coefficients of a penalised fit with profile limits and penalised likelihood-ratio tests, the
 * inference that goes with Firth's method (Heinze and Schemper 2002).
 */
import { chiSquareUpperTail } from "./distributions.ts";
import {
  maximisePenalised,
  type PenalisedEvaluation,
  type PenalisedResult,
} from "./firth-newton.ts";
import { profileLimits } from "./profile-limits.ts";
import { cholesky, inverse } from "./symmetric-solve.ts";

export interface FirthCoefficient {
  readonly name: string;
  readonly estimate: number;
  /** From the information at the estimates. */
  readonly standardError: number;
  /** Profile limits of the penalised likelihood. */
  readonly lower: number;
  readonly upper: number;
  /** Twice the rise of the penalised log-likelihood over the coefficient held at 0. */
  readonly chiSquare: number;
  readonly pValue: number;
}

/** One row per coefficient of the fit. */
export function firthCoefficients<E extends PenalisedEvaluation>(source: {
  names: readonly string[];
  fit: PenalisedResult<E>;
  evaluate: (coefficients: Float64Array) => E;
  spread: ArrayLike<number>;
  level: number;
}): FirthCoefficient[] {
  const { names, fit, evaluate, spread, level } = source;
  const covariance = inverse(cholesky(fit.evaluation.information, 1e-14));
  const size = names.length;
  return names.map((name, j) => {
    const estimate = fit.coefficients[j]!;
    const standardError = Math.sqrt(covariance[j * size + j]!);
    const heldAt = (value: number) => {
      const start = fit.coefficients.map((c, k) => (k === j ? value : c));
      return maximisePenalised(evaluate, { start, spread, held: [j] }).penalisedLogLikelihood;
    };
    const logLikelihood = fit.penalisedLogLikelihood;
    const profile = { estimate, unit: standardError, logLikelihood, at: heldAt };
    const chiSquare = Math.max(0, 2 * (logLikelihood - heldAt(0)));
    const limits = profileLimits(profile, level);
    return {
      name,
      estimate,
      standardError,
      ...limits,
      chiSquare,
      pValue: chiSquareUpperTail(chiSquare, 1),
    };
  });
}
