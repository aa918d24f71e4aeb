/**
 * Firth's penalised Cox regression, for few events or a monotone likelihood (Heinze and Schemper
 * 2001): finite estimates with profile limits and penalised likelihood-ratio tests.
 *
 * The penalty's part of the score is tr(I^-1 dI/db_r) / 2. Each term of the likelihood (see
 * `cox-likelihood.ts`) adds to I the variance of x under weights on its risk set, and to dI/db_r its
 * third central moment, so that part is half the sum over terms of
 *   E[(x_r - xbar_r) (x - xbar)' I^-1 (x - xbar)]
 *     = E[x_r q] - xbar_r E[q] - 2 (I^-1 xbar)' E[x x_r] + 2 xbar_r xbar' I^-1 xbar,  q = x' I^-1 x,
 * whose expectations are sums over risk sets, made in one pass each: the work grows with rows plus
 * events, times the square of the number of covariates.
 */
import { requireLevel } from "./argument-checks.ts";
import { type CoxData, type CoxInput, coxData } from "./cox-data.ts";
import { type CoxEvaluation, coxLikelihood } from "./cox-likelihood.ts";
import { blockSums } from "./cox-risk-sums.ts";
import { chiSquareUpperTail } from "./distributions.ts";
import { type FirthCoefficient, firthCoefficients } from "./firth-coefficients.ts";
import { maximisePenalised, type PenalisedEvaluation } from "./firth-newton.ts";
import { multiplied } from "./gather.ts";
import type { ChiSquare } from "./regression-table.ts";
import { cholesky, inverse } from "./symmetric-solve.ts";

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
  const evaluate = (coefficients: Float64Array) => penalised(data, coefficients, ties);
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
  evaluation: CoxEvaluation,
  ties: "Efron" | "Breslow",
): Float64Array {
  const covariance = inverse(cholesky(evaluation.information, 1e-14));
  const moments = momentSums(data, evaluation.risk, covariance);
  const { s0, t0, s1, t1 } = evaluation.sums;
  const penalty = new Float64Array(data.columns.length);
  for (let b = 0; b < data.time.length; b++) {
    const deaths = ties === "Efron" ? data.deaths[b]! : 1;
    for (let l = 0; l < deaths; l++) {
      const share = l / deaths;
      const denominator = s0[b]! - share * t0[b]!;
      const expected = ({ everyone, events }: BlockSums) =>
        (everyone[b]! - share * events[b]!) / denominator;
      const mean = Float64Array.from(s1, (s, c) => (s[b]! - share * t1[c]![b]!) / denominator);
      const weight = data.deathWeight[b]! / deaths;
      addTerm(penalty, { weight, mean, covariance, moments, expected });
    }
  }
  return penalty;
}

type BlockSums = ReturnType<typeof blockSums>;

/** Sums over risk sets and deaths of q, of q x_r, and of x_r x_j: q = x' I^-1 x of a row. */
interface MomentSums {
  readonly form: BlockSums;
  readonly formBy: readonly BlockSums[];
  readonly products: readonly (readonly BlockSums[])[];
}

function momentSums(data: CoxData, risk: Float64Array, covariance: Float64Array): MomentSums {
  const { columns } = data;
  const row = new Float64Array(columns.length);
  const forms = new Float64Array(data.rows);
  for (let i = 0; i < forms.length; i++) {
    for (let j = 0; j < row.length; j++) row[j] = columns[j]![i]!;
    forms[i] = squared(covariance, row);
  }
  const sumsOf = (values: Float64Array) => blockSums(data, risk, values);
  // The products are symmetric: each pair is summed once.
  const products: BlockSums[][] = columns.map(() => []);
  columns.forEach((one, r) => {
    for (let j = 0; j <= r; j++) {
      const sums = sumsOf(multiplied(one, columns[j]!));
      products[r]![j] = sums;
      products[j]![r] = sums;
    }
  });
  const formBy = columns.map((column) => sumsOf(multiplied(forms, column)));
  return { form: sumsOf(forms), formBy, products };
}

function addTerm(
  penalty: Float64Array,
  term: {
    readonly weight: number;
    readonly mean: Float64Array;
    readonly covariance: Float64Array;
    readonly moments: MomentSums;
    expected(sums: BlockSums): number;
  },
): void {
  const { weight, mean, covariance, moments, expected } = term;
  const size = mean.length;
  const turned = mean.map((_, j) => {
    let sum = 0;
    for (let k = 0; k < size; k++) sum += covariance[j * size + k]! * mean[k]!;
    return sum;
  });
  const ofMean = squared(covariance, mean);
  const form = expected(moments.form);
  for (let r = 0; r < size; r++) {
    let value = expected(moments.formBy[r]!) - mean[r]! * form + 2 * mean[r]! * ofMean;
    for (let j = 0; j < size; j++) value -= 2 * turned[j]! * expected(moments.products[r]![j]!);
    penalty[r] = penalty[r]! + weight * value;
  }
}

function squared(matrix: Float64Array, x: Float64Array): number {
  let sum = 0;
  for (let j = 0; j < x.length; j++) {
    for (let k = 0; k < x.length; k++) sum += x[j]! * matrix[j * x.length + k]! * x[k]!;
  }
  return sum;
}
