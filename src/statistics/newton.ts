/**
 * Newton's method for a log-likelihood, with halved steps, and the recognition of a likelihood that
 * rises for ever.
 *
 * A fit has converged when a whole step would move no standardised coefficient by more than 1e-9, and
 * the information is not singular there. If instead the log-likelihood has stopped rising while
 * coefficients still move, there is no maximum: in logistic regression the outcome is separated
 * (Albert and Anderson 1984), in Cox regression the likelihood is monotone (Bryson and Johnson 1981).
 * Those that move are named as infinite, and with them those of which nothing is known any more
 * that far out: two groups without an event each, beside one in which all fail. So are those that only
 * seem to have come to rest, where next to nothing is left of what was known of them at the start.
 */
import { cholesky, solve } from "./symmetric-solve.ts";

export interface Evaluation {
  readonly logLikelihood: number;
  readonly score: Float64Array;
  readonly information: Float64Array;
}

export interface NewtonResult<E extends Evaluation> {
  readonly coefficients: Float64Array;
  readonly evaluation: E;
  readonly iterations: number;
  readonly converged: boolean;
  /** Positions of coefficients that move without end, or are lost where others do. */
  readonly infinite: readonly number[];
}

export interface NewtonOptions {
  /** Where to start; 0 unless given. */
  readonly start?: ArrayLike<number>;
  /** The evaluation at the start, where it is already known. */
  readonly evaluated?: Evaluation;
  /** The unit in which each coefficient's steps are measured: the spread of its covariate. */
  readonly spread: ArrayLike<number>;
  readonly mostIterations?: number;
}

const STEP = 1e-9;
const STILL_MOVING = 1e-3;
const FLAT = 1e-11;
const GONE = 1e-6;
const LOST = 100;
const FARTHEST = 8;

/** Maximises the log-likelihood that `evaluate` gives. */
export function maximise<E extends Evaluation>(
  evaluate: (coefficients: Float64Array) => E,
  { start, evaluated, spread, mostIterations = 60 }: NewtonOptions,
): NewtonResult<E> {
  let coefficients: Float64Array = Float64Array.from(start ?? new Float64Array(spread.length));
  let evaluation = (evaluated as E | undefined) ?? evaluate(coefficients);
  const first = evaluation;
  for (let iterations = 0; ; iterations++) {
    const { step, isSingular } = stepOf(evaluation, spread);
    const sizes = step.map((value, j) => Math.abs(value * spread[j]!));
    const result = { coefficients, evaluation, iterations };
    if (sizes.every((size) => size <= STEP)) {
      const infinite = Array.from(sizes.keys()).filter((j) => isGone(j, first, evaluation));
      return { ...result, converged: !isSingular && infinite.length === 0, infinite };
    }
    const next =
      iterations < mostIterations ? rise(evaluate, { coefficients, evaluation, step }) : null;
    const gain = next === null ? 0 : next.evaluation.logLikelihood - evaluation.logLikelihood;
    const isFlat = gain <= FLAT * (1 + Math.abs(evaluation.logLikelihood));
    if (next === null || (isFlat && iterations > 0)) {
      const infinite = withoutEnd({ sizes, first, last: (next ?? result).evaluation });
      const isAtRest = infinite.length === 0 && iterations < mostIterations;
      return { ...(next ?? result), iterations, converged: isAtRest, infinite };
    }
    ({ coefficients, evaluation } = next);
  }
}

/** Positions that still move and, if any does, those whose information has gone to nothing. */
function withoutEnd({ sizes, first, last }: WayTaken): readonly number[] {
  const positions = Array.from(sizes.keys());
  const isMoving = (j: number) => !(sizes[j]! <= STILL_MOVING);
  if (!positions.some(isMoving)) return [];
  return positions.filter((j) => isMoving(j) || isGone(j, first, last));
}

/** Whether of what was known of a coefficient at first next to nothing is left. */
function isGone(j: number, first: Evaluation, last: Evaluation): boolean {
  const known = ({ information, score }: Evaluation) => information[j * score.length + j]!;
  return known(last) < GONE * known(first);
}

interface WayTaken {
  readonly sizes: Float64Array;
  readonly first: Evaluation;
  readonly last: Evaluation;
}

/**
 * Newton's step, shortened where it is very long. Where the information is singular or nothing, as far out
 * where every probability is 0 or 1, that is no step or one into nowhere: it is then up the slope, by at most
 * 8 units in each coefficient.
 */
function stepOf({ information, score }: Evaluation, spread: ArrayLike<number>) {
  const decomposition = cholesky(information, 1e-14);
  const isSingular = decomposition.dependent.length > 0;
  const newton = solve(decomposition, score);
  const longest = newton.reduce((most, move, j) => Math.max(most, Math.abs(move * spread[j]!)), 0);
  if (!isSingular && longest < LOST) return { step: newton, isSingular };
  if (!isSingular && longest < Infinity) {
    return { step: newton.map((move) => (move * LOST) / longest), isSingular };
  }
  const size = score.length;
  const step = score.map((slope, j) => {
    const bend = information[j * size + j]! + (Math.abs(slope) * spread[j]!) / FARTHEST;
    return bend === 0 ? 0 : slope / bend;
  });
  return { step, isSingular };
}

/**
 * The first of ever shorter steps that does not lower the log-likelihood, nor leads so far out that what is
 * known there is no number any more; null when none does.
 */
function rise<E extends Evaluation>(
  evaluate: (coefficients: Float64Array) => E,
  from: { coefficients: Float64Array; evaluation: E; step: Float64Array },
): { coefficients: Float64Array; evaluation: E } | null {
  const slack = 1e-12 * (1 + Math.abs(from.evaluation.logLikelihood));
  for (let length = 1; length > 1e-6; length /= 2) {
    const coefficients = from.coefficients.map((value, j) => value + length * from.step[j]!);
    const evaluation = evaluate(coefficients);
    const isNumber = evaluation.information.every(Number.isFinite);
    if (isNumber && evaluation.logLikelihood >= from.evaluation.logLikelihood - slack) {
      return { coefficients, evaluation };
    }
  }
  return null;
}
