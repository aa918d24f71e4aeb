/**
 * The Bernoulli CUSUM: failures of operations that all have the same expected risk (Reynolds and
 * Stoumbos, Journal of Quality Technology 1999;31:87).
 *
 * With rates p0 expected and p1 watched for, let r1 = -ln((1 - p1) / (1 - p0)) and r2 = the log
 * of the odds ratio. A failure adds r2 - r1, a success takes away r1. Where r2 / r1 is a whole
 * number m, the sum in units of r1 moves on whole numbers and its run length is exact;
 * `latticeRate` is the p1 near the one wanted that has this.
 */
import { readEvent, requireBetween, requireCount } from "./argument-checks.ts";
import { type CusumOptions, type CusumPath, cusum } from "./cusum.ts";
import { type CusumChain, cusumChain } from "./cusum-chain.ts";
import { outcomeSteps } from "./cusum-run-length.ts";
import { bernoulliWeights } from "./cusum-weights.ts";
import { findRoot } from "./find-root.ts";

export interface BernoulliDesign {
  /** The failure rate expected. */
  readonly expected: number;
  /** The failure rate watched for, above or below. */
  readonly watched: number;
}

/** The path in the order of operation, in units of log-likelihood. */
export function bernoulliCusum(
  failed: ArrayLike<number | boolean>,
  { expected, watched, ...options }: BernoulliDesign & CusumOptions,
): CusumPath {
  const weights = bernoulliWeights(expected, watched);
  const increments = Float64Array.from({ length: failed.length }, (_, i) =>
    readEvent(failed[i], i) === 1 ? weights.failure : weights.success,
  );
  return cusum(increments, options);
}

/** The chain of the chart when the true failure rate is `rate`. */
export function bernoulliChain(
  { expected, watched }: BernoulliDesign,
  { limit, rate, states = 500 }: { limit: number; rate: number; states?: number },
): CusumChain {
  return cusumChain(outcomeSteps(bernoulliWeights(expected, watched), rate), { limit, states });
}

export interface LatticeRate {
  readonly watched: number;
  /** The log-likelihood of one step of the lattice, r1. */
  readonly step: number;
}

/**
 * The rate above `expected` for which a failure is worth `m` steps: a whole number below 1 /
 * expected.
 */
export function latticeRate(expected: number, m: number): LatticeRate {
  requireBetween("expected", expected, 0, 1);
  requireCount("m", m);
  if (!(m * expected < 1 && m > 1)) {
    throw new RangeError(`m is ${m}; expected from 2 to below 1 / ${expected}`);
  }
  const excess = (rate: number) => {
    const { failure, success } = bernoulliWeights(expected, rate);
    return failure - success + m * success;
  };
  const watched = findRoot(excess, { from: expected * (1 + 1e-9), to: 1 - 1e-12 });
  return { watched, step: -bernoulliWeights(expected, watched).success };
}

/** The exact chain on the lattice: `steps` of the limit, failure up by m - 1, success down by 1. */
export function latticeChain(
  m: number,
  { steps, rate }: { steps: number; rate: number },
): CusumChain {
  requireCount("m", m);
  requireCount("steps", steps);
  const weights = { failure: m - 1, success: -1 };
  return cusumChain(outcomeSteps(weights, rate), { limit: steps, states: steps });
}
