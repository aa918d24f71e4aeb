/**
 * Firth's penalised Cox regression, for few events or a monotone likelihood (Heinze and Schemper
 * 2001): finite estimates with profile limits and penalised likelihood-ratio tests.
 *
 * The penalty's part of the score is worked out in `cox-firth-penalty.ts`.
 */
import { requireLevel } from "./argument-checks.ts";
import { type CoxData, type CoxInput, coxData } from "./cox-data.ts";
import { firthPenalty } from "./cox-firth-penalty.ts";
import { coxLikelihood } from "./cox-likelihood.ts";
import { chiSquareUpperTail } from "./distributions.ts";
import { type FirthCoefficient, firthCoefficients } from "./firth-coefficients.ts";
import { maximisePenalised, type PenalisedEvaluation } from "./firth-newton.ts";
import type { ChiSquare } from "./regression-table.ts";
import { cholesky } from "./symmetric-solve.ts";

export interface CoxFirthFit {
  /** Of those asked for. */
  readonly coefficients: readonly FirthCoefficient[];
  readonly penalisedLogLikelihood: number;
  /** Penalised likelihood ratio against all coefficients 0. */
  readonly likelihoodRatio: ChiSquare;
  readonly converged: boolean;
  readonly rows: number;
  readonly events: number;
  readonly level: number;
}

/** Fits the model; throws a RangeError when a covariate is constant or collinear, naming it. */
export function coxFirth(
  input: CoxInput & {
    readonly ties?: "Efron" | "Breslow";
    readonly level?: number;
    /** Names of the coefficients to tell of, for each costs its profile; all unless given. */
    readonly only?: readonly string[];
  },
): CoxFirthFit {
  const { ties = "Efron", level = 0.95, only } = input;
  requireLevel(level);
  const data = coxData(input);
  const names = input.names ?? input.covariates.map((_, c) => `x${c + 1}`);
  const size = data.columns.length;
  const zero = new Float64Array(size);
  const [dependent] = cholesky(coxLikelihood(data, zero, ties).information).dependent;
  if (dependent !== undefined) {
    const name = names[dependent];
    throw new RangeError(
      `${name} is constant or depends on the covariates before it; leave it out`,
    );
  }
  const { spread } = data;
  const evaluate = penalisedBy(data, ties);
  const fit = maximisePenalised(evaluate, { start: zero, spread });
  const held = Array.from({ length: size }, (_, j) => j);
  const none = maximisePenalised(evaluate, { start: zero, spread, held });
  const statistic = 2 * (fit.penalisedLogLikelihood - none.penalisedLogLikelihood);
  return {
    coefficients: firthCoefficients({ names, fit, evaluate, spread, level, only }),
    penalisedLogLikelihood: fit.penalisedLogLikelihood,
    likelihoodRatio: {
      statistic,
      degreesOfFreedom: size,
      pValue: chiSquareUpperTail(Math.max(0, statistic), size),
    },
    converged: fit.converged,
    rows: data.total,
    events: data.events,
    level,
  };
}

function penalisedBy(
  data: CoxData,
  ties: "Efron" | "Breslow",
): (coefficients: Float64Array) => PenalisedEvaluation {
  const penaltyOf = firthPenalty(data, ties);
  return (coefficients) => {
    const evaluation = coxLikelihood(data, coefficients, ties);
    const penalty = penaltyOf(evaluation);
    const penalisedScore = evaluation.score.map((value, j) => value + penalty[j]! / 2);
    return { ...evaluation, penalisedScore };
  };
}
