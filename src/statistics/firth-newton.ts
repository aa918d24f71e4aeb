/**
 * Firth's penalised likelihood: ln L + ln det(I) / 2 with I the information, which removes the first-
 * order bias of the estimates and is always finite under separation or a monotone likelihood (Firth
 * 1993; Heinze and Schemper 2001, 2002). Maximised by Newton's method with the information of the
 * likelihood; coefficients can be held fixed, for profiles and likelihood-ratio tests.
 *
 * With very few rows the penalty bends the likelihood as much as they do, and a whole step lands as far
 * beyond the maximum as it started before it. So a step is shortened, by the secant of the slope, where
 * the slope at its end points back by more than a quarter of what it was.
 */
import { cholesky, logDeterminant, solve } from "./symmetric-solve.ts";

export interface PenalisedEvaluation {
  /** Without the penalty. */
  readonly logLikelihood: number;
  readonly information: Float64Array;
  /** The score of the penalised log-likelihood. */
  readonly penalisedScore: Float64Array;
}

export interface PenalisedResult<E extends PenalisedEvaluation> {
  readonly coefficients: Float64Array;
  readonly evaluation: E;
  readonly penalisedLogLikelihood: number;
  readonly converged: boolean;
  readonly iterations: number;
}

export interface PenalisedOptions {
  readonly start: Float64Array;
  /** The unit in which steps are measured: the spread of each covariate. */
  readonly spread: ArrayLike<number>;
  /** Positions of coefficients held at their start. */
  readonly held?: readonly number[];
  /** The longest last step of a standardised coefficient; 1e-10 unless given. */
  readonly lastStep?: number;
}

const STEP = 1e-10;
const MOST_ITERATIONS = 200;
const LONGEST_STEP = 5;
const MOST_BACK = 0.25;
const SHORTEST = 1e-6;

/** Maximises the penalised log-likelihood over the coefficients that are not held. */
export function maximisePenalised<E extends PenalisedEvaluation>(
  evaluate: (coefficients: Float64Array) => E,
  { start, spread, held = [], lastStep = STEP }: PenalisedOptions,
): PenalisedResult<E> {
  let coefficients: Float64Array = Float64Array.from(start);
  let evaluation = evaluate(coefficients);
  let best = penalisedLogLikelihood(evaluation);
  for (let iterations = 0; ; iterations++) {
    const step = limited(stepOf(evaluation, held), spread);
    const isAtRest = step.every((value, j) => Math.abs(value * spread[j]!) <= lastStep);
    if (isAtRest || iterations === MOST_ITERATIONS) {
      const result = { coefficients, evaluation, penalisedLogLikelihood: best };
      return { ...result, converged: isAtRest, iterations };
    }
    ({ coefficients, evaluation, best } = climb(evaluate, {
      coefficients,
      evaluation,
      best,
      step,
    }));
  }
}

interface Reached<E> {
  readonly coefficients: Float64Array;
  readonly evaluation: E;
  readonly best: number;
}

/** As far along the step as it neither lowers the penalised log-likelihood nor passes its maximum by far. */
function climb<E extends PenalisedEvaluation>(
  evaluate: (coefficients: Float64Array) => E,
  { coefficients, evaluation, best, step }: Reached<E> & { readonly step: Float64Array },
): Reached<E> {
  const slopeOf = ({ penalisedScore }: PenalisedEvaluation) =>
    step.reduce((sum, value, j) => sum + value * penalisedScore[j]!, 0);
  const slope = slopeOf(evaluation);
  for (let length = 1; ; ) {
    const next = coefficients.map((value, j) => value + length * step[j]!);
    const evaluated = evaluate(next);
    const reached = penalisedLogLikelihood(evaluated);
    const isHigher = reached >= best - 1e-11 * (1 + Math.abs(best));
    const back = -slopeOf(evaluated);
    if ((isHigher && back <= MOST_BACK * slope) || length < SHORTEST) {
      return { coefficients: next, evaluation: evaluated, best: reached };
    }
    length *= isHigher ? slope / (slope + back) : 1 / 2;
  }
}

export function penalisedLogLikelihood(evaluation: PenalisedEvaluation): number {
  const decomposition = cholesky(evaluation.information, 1e-14);
  return evaluation.logLikelihood + logDeterminant(decomposition) / 2;
}

/** The Newton step of the free coefficients; 0 for those held. */
function stepOf({ information, penalisedScore }: PenalisedEvaluation, held: readonly number[]) {
  const size = penalisedScore.length;
  const free = information.map((value, cell) => {
    const [row, column] = [Math.floor(cell / size), cell % size];
    if (!held.includes(row) && !held.includes(column)) return value;
    return row === column ? 1 : 0;
  });
  const score = penalisedScore.map((value, j) => (held.includes(j) ? 0 : value));
  return solve(cholesky(free, 1e-14), score);
}

/** Shortens a step that would move a standardised coefficient by more than 5. */
function limited(step: Float64Array, spread: ArrayLike<number>): Float64Array {
  const longest = step.reduce((most, value, j) => Math.max(most, Math.abs(value * spread[j]!)), 0);
  return longest > LONGEST_STEP ? step.map((value) => (value * LONGEST_STEP) / longest) : step;
}
