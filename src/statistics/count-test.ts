/**
 * The exact test of one observed count against a distribution that has a single peak (binomial,
 * Poisson, Poisson-binomial).
 *
 * One-sided p: the tail at and beyond the observed count. Two-sided p: the probability of all
 * counts no more probable than the observed one, with a relative margin of 1e-7 for rounding, as
 * most texts have it. Mid-P: twice the smaller tail with the observed count taken by half
 * (Lancaster 1961; Berry and Armitage, The Statistician 1995;44:417), at most 1.
 */
import { requireCount } from "./argument-checks.ts";

export interface CountDistribution {
  readonly probability: (count: number) => number;
  /** P(X <= count). */
  readonly lowerTail: (count: number) => number;
  /** P(X >= count). */
  readonly upperTail: (count: number) => number;
  /** A most probable count: the distribution rises up to it and falls from it on. */
  readonly mode: number;
  /** The largest count with any probability, or Infinity. */
  readonly most: number;
}

export interface CountTest {
  /** P(as many or fewer). */
  readonly pLess: number;
  /** P(as many or more). */
  readonly pGreater: number;
  readonly pTwoSided: number;
  readonly midP: number;
}

const MARGIN = 1 + 1e-7;

/** The test of `observed`, a whole number; beyond the largest count every p but pLess is 0. */
export function countTest(observed: number, distribution: CountDistribution): CountTest {
  requireCount("observed", observed);
  const pLess = distribution.lowerTail(observed);
  const pGreater = distribution.upperTail(observed);
  const here = distribution.probability(observed);
  const smaller = Math.min(pLess - here / 2, pGreater - here / 2);
  return {
    pLess,
    pGreater,
    pTwoSided: Math.min(1, twoSided(observed, here * MARGIN, distribution)),
    midP: Math.min(1, Math.max(0, 2 * smaller)),
  };
}

function twoSided(observed: number, most: number, distribution: CountDistribution): number {
  const { mode, lowerTail, upperTail } = distribution;
  if (observed === mode) return 1;
  if (observed > mode) return upperTail(observed) + lowerTail(lastBelow(most, distribution));
  return lowerTail(observed) + upperTail(firstAbove(most, distribution));
}

/** The last count under the mode with a probability of at most `most`; -1 when there is none. */
function lastBelow(most: number, { mode, probability }: CountDistribution): number {
  let low = -1;
  let high = mode;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (probability(middle) <= most) low = middle;
    else high = middle;
  }
  return probability(mode) <= most ? mode : low;
}

/** The first count above the mode with a probability of at most `most`. */
function firstAbove(most: number, distribution: CountDistribution): number {
  const { mode, probability } = distribution;
  let step = 1;
  while (mode + step <= distribution.most && probability(mode + step) > most) step *= 2;
  let low = mode;
  let high = Math.min(mode + step, distribution.most + 1);
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (probability(middle) <= most) high = middle;
    else low = middle;
  }
  return probability(mode) <= most ? mode : high;
}
