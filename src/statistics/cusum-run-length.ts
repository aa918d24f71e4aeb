/**
 * Run lengths of the risk-adjusted CUSUM for a given mix of risks, and the limit that has a stated
 * in-control run length (Steiner et al. 2000; see `cusum-chain.ts` for the method).
 *
 * The run length is the number of operations until the first signal. In control the failures
 * follow the expected risks, and a signal is a false one; with `actualOddsRatio` the true odds
 * are that many times the expected ones. Risks are taken as drawn at random from the mix.
 */
import { requireBetween } from "./argument-checks.ts";
import { requireRisk } from "./count-distributions.ts";
import {
  type CusumChain,
  type CusumStep,
  cusumChain,
  expectedRunLength,
  signalProbabilities,
} from "./cusum-chain.ts";
import { type OutcomeWeights, riskAdjustedWeights, shiftedRisk } from "./cusum-weights.ts";
import { findRoot } from "./find-root.ts";

/** A risk of failure and the share of operations that have it; shares need not sum to 1. */
export interface RiskShare {
  readonly risk: number;
  readonly share: number;
}

export interface CusumDesign {
  /** The mix of risks of the operations, or one risk for each operation seen. */
  readonly risks: readonly RiskShare[] | ArrayLike<number>;
  /** The change of the odds that the chart watches for. */
  readonly oddsRatio: number;
  /** The true change of the odds; 1, in control, unless said. */
  readonly actualOddsRatio?: number;
  /** States of the chain; 500 unless said. */
  readonly states?: number;
}

/** The chain of the chart with the given limit. */
export function riskAdjustedChain(design: CusumDesign, limit: number): CusumChain {
  const { states = 500 } = design;
  return cusumChain(riskAdjustedSteps(design), { limit, states });
}

/** Expected operations until the first signal of the chart with the given limit. */
export function cusumRunLength(design: CusumDesign, limit: number): number {
  return expectedRunLength(riskAdjustedChain(design, limit));
}

/** The probability of a signal, false if in control, within each of the first `operations`. */
export function cusumSignalProbabilities(
  design: CusumDesign,
  { limit, operations }: { limit: number; operations: number },
): Float64Array {
  return signalProbabilities(riskAdjustedChain(design, limit), operations);
}

/**
 * The limit with an expected run length of `runLength` operations, to the accuracy of the chain; null
 * where even a limit of 0.001 runs longer. So it is where the outcome watched for is rarer than once in
 * `runLength` operations (all risks near 0; near 1 when better odds are watched for), and where
 * the outcome tells next to nothing (all risks 0 or 1): no chart of this kind has that run length.
 */
export function cusumLimit(design: CusumDesign, runLength: number): number | null {
  const { states = 500 } = design;
  const steps = riskAdjustedSteps(design);
  return limitForRunLength((limit) => cusumChain(steps, { limit, states }), runLength);
}

/** The limit at which the chain made for it has an expected run length of `runLength`. */
export function limitForRunLength(
  chainAt: (limit: number) => CusumChain,
  runLength: number,
): number | null {
  requireBetween("runLength", runLength, 1, Infinity);
  const excess = (limit: number) => Math.log(expectedRunLength(chainAt(limit)) / runLength);
  const least = 1e-3;
  if (excess(least) > 0) return null;
  let to = 1;
  while (excess(to) <= 0) to *= 1.5;
  return findRoot(excess, { from: least, to, tolerance: 1e-6 });
}

/** The increments of one operation and their probabilities, over the mix of risks. */
export function riskAdjustedSteps(design: CusumDesign): CusumStep[] {
  const { oddsRatio, actualOddsRatio = 1 } = design;
  const mix = sharesOf(design.risks);
  const total = mix.reduce((sum, { share }) => sum + share, 0);
  if (!(total > 0)) throw new RangeError("the risks are none; expected at least one");
  return mix.flatMap(({ risk, share }) => {
    const weights = riskAdjustedWeights(risk, oddsRatio);
    return outcomeSteps(weights, shiftedRisk(risk, actualOddsRatio), share / total);
  });
}

/** The two increments of an operation that fails with probability `risk`. */
export function outcomeSteps(weights: OutcomeWeights, risk: number, share = 1): CusumStep[] {
  requireRisk("risk", risk);
  return [
    { change: weights.failure, probability: share * risk },
    { change: weights.success, probability: share * (1 - risk) },
  ];
}

function sharesOf(risks: CusumDesign["risks"]): readonly RiskShare[] {
  return Array.from(risks as ArrayLike<RiskShare | number>, (entry) =>
    typeof entry === "number" ? { risk: entry, share: 1 } : entry,
  );
}
