/**
 * The binomial and the Poisson distribution in the shape that tests and limits of counts take: a
 * probability, P(X <= k) and P(X >= k) for whole k, the most likely count and the largest possible one.
 *
 * Each tail is computed as itself (incomplete beta and gamma functions, `distributions.ts`), so that both
 * keep their digits when small. A risk of 0 or 1 and a mean of 0 are distributions of one point. That
 * P(X <= k) of a binomial is an incomplete beta function, and of a Poisson variable an incomplete gamma
 * function: Johnson, Kemp and Kotz, Univariate Discrete Distributions, 2005.
 */
import { refuseNumber, requireCount } from "./argument-checks.ts";
import type { CountDistribution } from "./count-test.ts";
import {
  binomialLowerTail,
  binomialProbability,
  binomialUpperTail,
  poissonLowerTail,
  poissonUpperTail,
} from "./distributions.ts";
import { poissonDensity } from "./incomplete-gamma.ts";

/** The binomial distribution of failures among `total` eyes, each with the same `risk`. */
export function binomialCounts(total: number, risk: number): CountDistribution {
  requireCount("total", total);
  requireRisk("risk", risk);
  return {
    probability: (k) => (k < 0 || k > total ? 0 : binomialProbability(k, total, risk)),
    lowerTail: (k) => binomialLowerTail(k, total, risk),
    upperTail: (k) => binomialUpperTail(k, total, risk),
    mode: Math.min(total, Math.floor((total + 1) * risk)),
    most: total,
  };
}

/** The Poisson distribution with the given mean. */
export function poissonCounts(mean: number): CountDistribution {
  if (!(mean >= 0 && mean < Infinity)) refuseNumber("mean", mean, 0);
  return {
    probability: (k) => (k < 0 ? 0 : poissonDensity(k, mean)),
    lowerTail: (k) => poissonLowerTail(k, mean),
    upperTail: (k) => poissonUpperTail(k, mean),
    mode: Math.floor(mean),
    most: mean === 0 ? 0 : Infinity,
  };
}

/** Refuses what is no probability from 0 to 1. */
export function requireRisk(name: string, value: number): void {
  if (typeof value !== "number") refuseNumber(name, value, 0);
  if (!(value >= 0 && value <= 1)) {
    throw new RangeError(`${name} is ${value}; expected a probability from 0 to 1`);
  }
}

/** Refuses a column that holds anything but probabilities from 0 to 1. */
export function requireRisks(name: string, values: ArrayLike<number>): void {
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (!(value >= 0 && value <= 1)) requireRisk(`${name}[${i}]`, value);
  }
}
