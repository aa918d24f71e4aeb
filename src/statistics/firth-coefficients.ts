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

/**
 * How near the other coefficients are brought to where the likelihood of a profile is highest: there it
 * differs from its maximum by the square of this.
 */
const NEAR_ENOUGH = 1e-7;

/** One row per coefficient that is told of. */
export function firthCoefficients<E extends PenalisedEvaluation>(source: {
  names: readonly string[];
  fit: PenalisedResult<E>;
  evaluate: (coefficients: Float64Array) => E;
  spread: ArrayLike<number>;
  level: number;
  /** Names of the coefficients to tell of, for each costs its profile; all unless given. */
  only?: readonly string[] | undefined;
}): FirthCoefficient[] {
  const { names, fit, evaluate, spread, level, only } = source;
  const covariance = inverse(cholesky(fit.evaluation.information, 1e-14));
  const size = names.length;
  return names.flatMap((name, j): FirthCoefficient | [] => {
    if (only?.includes(name) === false) return [];
    const estimate = fit.coefficients[j]!;
    const standardError = Math.sqrt(covariance[j * size + j]!);
    const heldAt = heldFrom(fit.coefficients, { evaluate, spread, j, covariance });
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

/** The height of the likelihood with coefficient j held, over all others; each search starts from the last. */
function heldFrom<E extends PenalisedEvaluation>(
  home: Float64Array,
  by: {
    evaluate: (coefficients: Float64Array) => E;
    spread: ArrayLike<number>;
    j: number;
    covariance: Float64Array;
  },
): (value: number) => number {
  const { evaluate, spread, j, covariance } = by;
  const size = home.length;
  // along the line on which the others follow this one: elsewhere the start may be out of sight
  const along = (k: number) => covariance[j * size + k]! / covariance[j * size + j]!;
  let near = home;
  return (value) => {
    const move = value - near[j]!;
    const start = near.map((c, k) => (k === j ? value : c + move * along(k)));
    const found = maximisePenalised(evaluate, { start, spread, held: [j], lastStep: NEAR_ENOUGH });
    near = found.coefficients;
    return found.penalisedLogLikelihood;
  };
}
