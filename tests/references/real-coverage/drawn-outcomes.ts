/** Outcomes drawn for the tables of real coverage: a logistic model at a stated rate on average. */
import { normalQuantile } from "../../../src/statistics/distributions.ts";
import type { RandomSource } from "../../../src/statistics/seeded-random.ts";

/** The logarithm of the odds ratio of one standard deviation of `x`. */
export const EFFECT = Math.LN2;

export interface DrawnOutcomes {
  readonly rate: number;
  readonly outcome: Uint8Array;
  /** The true risk of each eye. */
  readonly risk: Float64Array;
  readonly x: Float64Array;
  /** Normal, without an effect. */
  readonly other: Float64Array;
  /** 1 for every other eye, without an effect. */
  readonly second: Float64Array;
}

export function drawnOutcomes({
  eyes,
  rate,
  random,
}: {
  readonly eyes: number;
  readonly rate: number;
  readonly random: RandomSource;
}): DrawnOutcomes {
  const normal = () => Float64Array.from({ length: eyes }, () => normalQuantile(random.uniform()));
  const [x, other] = [normal(), normal()];
  const intercept = interceptFor(rate);
  const risk = x.map((value) => riskAt(intercept + EFFECT * value));
  const outcome = Uint8Array.from(risk, (p) => (random.uniform() < p ? 1 : 0));
  const second = Float64Array.from({ length: eyes }, (_, i) => i % 2);
  return { rate, outcome, risk, x, other, second };
}

export const riskAt = (score: number): number => 1 / (1 + Math.exp(-score));

const found = new Map<number, number>();

/** The intercept at which the mean risk over a normal covariate is the rate, by halving. */
function interceptFor(rate: number): number {
  const known = found.get(rate);
  if (known !== undefined) return known;
  const scores = Array.from({ length: 2000 }, (_, i) => EFFECT * normalQuantile((i + 0.5) / 2000));
  let [low, high] = [-20, 20];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    const mean = scores.reduce((sum, score) => sum + riskAt(middle + score), 0) / scores.length;
    if (mean < rate) low = middle;
    else high = middle;
  }
  found.set(rate, low);
  return low;
}
