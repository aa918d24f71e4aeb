/**
 * The learning-curve CUSUM: it starts from the assumption that performance is not yet adequate, and
 * signals once the record speaks for adequate performance (Biau, Williams, Schlup, Nizard and
 * Porcher, British Journal of Surgery 2008;95:925; Biau and Porcher, Statistics in Medicine 2010).
 *
 * With pA the acceptable and pU > pA the unacceptable failure rate, a success adds ln((1 - pA) /
 * (1 - pU)), a failure ln(pA / pU), which is negative; the sum never falls below 0 and signals at
 * its limit. It is not a licence: a signal can be false, with the probability that
 * `falseCompetence` gives for a given number of operations.
 */
import { readEvent, requireBetween } from "./argument-checks.ts";
import { type CusumPath, cusum } from "./cusum.ts";
import { type CusumChain, cusumChain, signalProbabilities } from "./cusum-chain.ts";
import { outcomeSteps } from "./cusum-run-length.ts";
import { bernoulliWeights } from "./cusum-weights.ts";

export interface LearningCurveDesign {
  readonly acceptable: number;
  readonly unacceptable: number;
  readonly limit: number;
}

/** The path in the order of operation, drawn on past the first signal. */
export function learningCurveCusum(
  failed: ArrayLike<number | boolean>,
  design: LearningCurveDesign,
): CusumPath {
  const weights = weightsOf(design);
  const increments = Float64Array.from({ length: failed.length }, (_, i) =>
    readEvent(failed[i], i) === 1 ? weights.failure : weights.success,
  );
  return cusum(increments, { limit: design.limit, restarts: false });
}

/** The chain of the chart when the true failure rate is `rate`. */
export function learningCurveChain(design: LearningCurveDesign, rate: number): CusumChain {
  return cusumChain(outcomeSteps(weightsOf(design), rate), { limit: design.limit, states: 2000 });
}

/** The probability that a true rate of `unacceptable` signals within each of `operations`. */
export function falseCompetence(design: LearningCurveDesign, operations: number): Float64Array {
  return signalProbabilities(learningCurveChain(design, design.unacceptable), operations);
}

/** Successes in a row, from the start, that reach the limit. */
export function leastSuccesses(design: LearningCurveDesign): number {
  return Math.ceil(design.limit / weightsOf(design).success - 1e-9);
}

function weightsOf({ acceptable, unacceptable, limit }: LearningCurveDesign) {
  requireBetween("unacceptable", unacceptable, 0, 1);
  requireBetween("acceptable", acceptable, 0, unacceptable);
  requireBetween("limit", limit, 0, Infinity);
  return bernoulliWeights(unacceptable, acceptable);
}
