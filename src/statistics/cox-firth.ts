/**
 * Firth's penalised Cox regression, for few events or a monotone likelihood (Heinze and Schemper
 * 2001): finite estimates with profile limits and penalised likelihood-ratio tests.
 *
 * The penalty's part of the score is tr(I^-1 dI/db_r) / 2. Each term of the likelihood (see
 * `cox-likelihood.ts`) adds to I the variance of x under weights on its risk set, and to dI/db_r its
 * third central moment, so that part is half the sum over terms of
 *   E[(x_r - xbar_r) (x - xbar)' I^-1 (x - xbar)].
 * The work grows with events times rows at risk: meant for hundreds of events, not many thousands.
 */
import { requireLevel } from "./argument-checks.ts";
import { type CoxData, type CoxInput, coxData } from "./cox-data.ts";
import { type CoxEvaluation, coxLikelihood } from "./cox-likelihood.ts";
import { chiSquareUpperTail } from "./distributions.ts";
import { type FirthCoefficient, firthCoefficients } from "./firth-coefficients.ts";
import { maximisePenalised, type PenalisedEvaluation } from "./firth-newton.ts";
import type { ChiSquare } from "./regression-table.ts";
import { standardDeviation } from "./standard-deviation.ts";
import { cholesky, inverse } from "./symmetric-solve.ts";

export interface CoxFirthFit {
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
  input: CoxInput & { readonly ties?: "Efron" | "Breslow"; readonly level?: number },
): CoxFirthFit {
  const { ties = "Efron", level = 0.95 } = input;
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
  const spread = Float64Array.from(data.columns, standardDeviation);
  const evaluate = (coefficients: Float64Array) => penalised(data, coefficients, ties);
  const fit = maximisePenalised(evaluate, { start: zero, spread });
  const held = Array.from({ length: size }, (_, j) => j);
  const none = maximisePenalised(evaluate, { start: zero, spread, held });
  const statistic = 2 * (fit.penalisedLogLikelihood - none.penalisedLogLikelihood);
  return {
    coefficients: firthCoefficients({ names, fit, evaluate, spread, level }),
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

function penalised(
  data: CoxData,
  coefficients: Float64Array,
  ties: "Efron" | "Breslow",
): PenalisedEvaluation {
  const evaluation = coxLikelihood(data, coefficients, ties);
  const penalty = penaltyScore(data, evaluation, ties);
  const penalisedScore = evaluation.score.map((value, j) => value + penalty[j]! / 2);
  return { ...evaluation, penalisedScore };
}

/** The sum over terms of E[(x_r - xbar_r) (x - xbar)' I^-1 (x - xbar)] for each covariate r. */
function penaltyScore(
  data: CoxData,
  { risk, sums, information }: CoxEvaluation,
  ties: "Efron" | "Breslow",
): Float64Array {
  const size = data.columns.length;
  const covariance = inverse(cholesky(information, 1e-14));
  const penalty = new Float64Array(size);
  const distance = new Float64Array(size);
  for (let b = 0; b < data.time.length; b++) {
    const deaths = ties === "Efron" ? data.deaths[b]! : 1;
    const rows = atRiskAtBlock(data, b);
    for (let l = 0; l < deaths; l++) {
      const share = l / deaths;
      const denominator = sums.s0[b]! - share * sums.t0[b]!;
      const mean = sums.s1.map((s, c) => (s[b]! - share * sums.t1[c]![b]!) / denominator);
      const weight = data.deathWeight[b]! / deaths / denominator;
      for (const i of rows) {
        const isDeath = data.isEvent[i] === 1 && data.lastBlock[i] === b;
        for (let j = 0; j < size; j++) distance[j] = data.columns[j]![i]! - mean[j]!;
        const form = weight * risk[i]! * (isDeath ? 1 - share : 1) * squared(covariance, distance);
        for (let j = 0; j < size; j++) penalty[j] = penalty[j]! + form * distance[j]!;
      }
    }
  }
  return penalty;
}

function squared(matrix: Float64Array, x: Float64Array): number {
  let sum = 0;
  for (let j = 0; j < x.length; j++) {
    for (let k = 0; k < x.length; k++) sum += x[j]! * matrix[j * x.length + k]! * x[k]!;
  }
  return sum;
}

function atRiskAtBlock(data: CoxData, block: number): number[] {
  const rows: number[] = [];
  const first = data.firstBlock[block]!;
  for (let i = 0; i < data.rows; i++) {
    const last = data.lastBlock[i]!;
    if (last >= block && data.entryBlock[i]! < block && data.firstBlock[last] === first)
      rows.push(i);
  }
  return rows;
}
