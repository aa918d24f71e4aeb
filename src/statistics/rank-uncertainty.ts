/**
 * How certain the rank of a unit is: the distribution of each unit's place when true failure rates
 * are drawn from their beta distributions (Goldstein and Spiegelhalter, Journal of the Royal
 * Statistical Society A 1996;159:385; Laird and Louis 1989).
 *
 * Exact, without simulation: given that a unit's rate is t, every other unit j lies above it with
 * probability 1 - F_j(t), independently, so the number above is Poisson-binomial; this is
 * averaged over the unit's own density. The integral is the trapezoidal rule on the logit of t,
 * where beta densities are smooth with tails that die away, so that the rule converges faster
 * than any power of its step; the step is a third of the narrowest density's spread.
 *
 * Of ten such units the 95% limits of a rank hold the true one in 97 to 99% from 100 eyes up, in
 * 89% or more with 2 to 5 eyes each (counted in the tables of real coverage among the tests).
 */
import { requireLevel } from "./argument-checks.ts";
import { betaLowerTail } from "./distributions.ts";
import { logGamma } from "./log-gamma.ts";
import { poissonBinomialProbabilities } from "./poisson-binomial.ts";

/** A unit's true rate has the beta distribution with these shapes. */
export interface RateBelief {
  readonly alpha: number;
  readonly beta: number;
}

export interface RankUncertainty {
  /** The probability of rank 1 (lowest failure rate), 2, ... up to the number of units. */
  readonly probabilities: Float64Array;
  readonly expectedRank: number;
  /** The ranks that leave at most (1 - level) / 2 on either side. */
  readonly lowerRank: number;
  readonly upperRank: number;
  /** The probability of being among the quarter (rounded up) with the highest true rates. */
  readonly worstQuarter: number;
}

/** The ranks of units with the given beliefs about their rates, both shapes above 0. */
export function rankUncertainty(beliefs: readonly RateBelief[], level = 0.95): RankUncertainty[] {
  requireLevel(level);
  for (const { alpha, beta } of beliefs) requireShapes(alpha, beta);
  const ranks = beliefs.map(() => new Float64Array(beliefs.length));
  for (const logit of logitGrid(beliefs)) addNode(ranks, beliefs, logit);
  return ranks.map((weights) => summarise(weights, level));
}

/** Adds one node of the integral to the probabilities of every unit's rank. */
function addNode(
  ranks: readonly Float64Array[],
  beliefs: readonly RateBelief[],
  logit: number,
): void {
  const below = beliefs.map((belief) => lowerTailAt(belief, logit));
  const all = poissonBinomialProbabilities(below);
  beliefs.forEach((belief, i) => {
    const density = logitDensity(belief, logit);
    if (density < 1e-18) return;
    const others = withoutOne(all, below[i]!);
    for (let k = 0; k < others.length; k++) ranks[i]![k] = ranks[i]![k]! + density * others[k]!;
  });
}

/**
 * The distribution of a sum of independent events less one of them, of probability `p`: the
 * recursion that added it run backwards, from the end at which errors shrink.
 */
function withoutOne(all: Float64Array, p: number): Float64Array {
  const rest = new Float64Array(all.length - 1);
  let before = 0;
  if (p <= 0.5) {
    for (let k = 0; k < rest.length; k++) {
      before = rest[k] = Math.max(0, (all[k]! - p * before) / (1 - p));
    }
  } else {
    for (let k = rest.length - 1; k >= 0; k--) {
      before = rest[k] = Math.max(0, (all[k + 1]! - (1 - p) * before) / p);
    }
  }
  return rest;
}

/** The density of logit(rate), t^alpha (1 - t)^beta / B(alpha, beta). */
function logitDensity({ alpha, beta }: RateBelief, logit: number): number {
  const logBeta = logGamma(alpha) + logGamma(beta) - logGamma(alpha + beta);
  const log = -alpha * Math.log1p(Math.exp(-logit)) - beta * Math.log1p(Math.exp(logit));
  return Math.exp(log - logBeta);
}

/** P(logit(rate) <= logit), from whichever of rate and 1 - rate keeps its digits. */
function lowerTailAt({ alpha, beta }: RateBelief, logit: number): number {
  const smaller = 1 / (1 + Math.exp(Math.abs(logit)));
  return logit <= 0 ? betaLowerTail(smaller, alpha, beta) : 1 - betaLowerTail(smaller, beta, alpha);
}

/** Equally spaced logits over the range where any density is not negligible. */
function logitGrid(beliefs: readonly RateBelief[]): number[] {
  const spread = ({ alpha, beta }: RateBelief) => Math.sqrt(1 / alpha + 1 / beta);
  const step = Math.min(...beliefs.map((belief) => Math.min(0.5, spread(belief) / 3)));
  const from = Math.min(...beliefs.map((belief) => edge(belief, -1)));
  const to = Math.max(...beliefs.map((belief) => edge(belief, 1)));
  const nodes = Math.ceil((to - from) / step);
  return Array.from({ length: Math.max(0, nodes) + 1 }, (_, i) => from + i * step);
}

/** A logit beyond which the density is under 1e-18 of what matters, found by stepping outwards. */
function edge(belief: RateBelief, side: -1 | 1): number {
  const { alpha, beta } = belief;
  let logit = Math.log(alpha / beta);
  const step = Math.sqrt(1 / alpha + 1 / beta);
  while (logitDensity(belief, logit) > 1e-18 && Math.abs(logit) < 700) logit += side * step;
  return logit;
}

function summarise(weights: Float64Array, level: number): RankUncertainty {
  const total = weights.reduce((a, b) => a + b, 0);
  const probabilities = weights.map((weight) => weight / total);
  const tail = (1 - level) / 2;
  const quarter = Math.ceil(weights.length / 4);
  return {
    probabilities,
    expectedRank: probabilities.reduce((a, p, k) => a + p * (k + 1), 0),
    lowerRank: 1 + countWithin(probabilities, tail),
    upperRank: weights.length - countWithin(probabilities.slice().reverse(), tail),
    worstQuarter: probabilities.slice(-quarter).reduce((a, b) => a + b, 0),
  };
}

/** How many leading probabilities sum to at most `tail`. */
function countWithin(probabilities: Float64Array, tail: number): number {
  let sum = 0;
  const beyond = probabilities.findIndex((p) => {
    sum += p;
    return sum > tail;
  });
  return Math.max(0, beyond);
}

function requireShapes(alpha: number, beta: number): void {
  if (!(alpha > 0 && beta > 0 && alpha < Infinity && beta < Infinity)) {
    throw new RangeError(`the shapes are ${alpha} and ${beta}; expected finite numbers above 0`);
  }
}
