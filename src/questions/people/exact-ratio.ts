import { shiftedRisk } from "../../statistics/cusum-weights.ts";
import { findRoot } from "../../statistics/find-root.ts";
import type { Interval } from "../../statistics/interval.ts";
import { observedExpected } from "../../statistics/observed-expected.ts";
import {
  observedAgainstRisks,
  poissonBinomialProbabilities,
} from "../../statistics/poisson-binomial.ts";

/** How the limits of observed over expected are had. */
export const ratioLimits = ["by the risk of each eye", "Poisson"] as const;
export type RatioLimits = (typeof ratioLimits)[number];

/** Observed over expected failures with exact limits and the exact two-sided test. */
export interface ExactRatio extends Interval {
  readonly estimate: number;
  readonly expected: number;
  readonly p: number;
}

/**
 * The ratio of observed failures to the sum of the risks; null without eyes.
 *
 * Limits by the risk of each eye turn the exact test round: the odds of all eyes are multiplied by
 * the one factor at which as many failures or more (or as few or fewer) have a probability of
 * (1 - level) / 2, and the failures then expected are set over those expected before. With equal
 * risks they are the limits of Clopper and Pearson (1934) over the risk. Poisson limits take the
 * count alone, as published standardised ratios do.
 */
export function exactRatio(
  observed: number,
  risks: readonly number[],
  { method = ratioLimits[0], level = 0.95 }: { method?: RatioLimits; level?: number } = {},
): ExactRatio | null {
  const expected = risks.reduce((sum, risk) => sum + risk, 0);
  if (risks.length === 0) return null;
  if (method === "Poisson") {
    const found = observedExpected(observed, expected, { level });
    if (found === null) return null;
    const { lower, upper, pTwoSided } = found;
    return { estimate: observed / expected, expected, lower, upper, p: pTwoSided, level, method };
  }
  const tail = (1 - level) / 2;
  const most = risks.length;
  return {
    estimate: observed / expected,
    expected,
    lower: observed === 0 ? 0 : meanAt(risks, (sum) => sum(observed, most) - tail) / expected,
    upper:
      observed === most
        ? most / expected
        : meanAt(risks, (sum) => tail - sum(0, observed)) / expected,
    p: observedAgainstRisks(observed, risks).pTwoSided,
    level,
    method: "Poisson-binomial",
  };
}

type SumFrom = (from: number, to: number) => number;

/** The failures expected at the factor of the odds where `excess`, rising with it, is 0. */
function meanAt(risks: readonly number[], excess: (sum: SumFrom) => number): number {
  const shifted = (logFactor: number) =>
    risks.map((risk) => shiftedRisk(risk, Math.exp(logFactor)));
  const at = (logFactor: number): number => {
    const probabilities = poissonBinomialProbabilities(shifted(logFactor));
    return excess((from, to) => probabilities.slice(from, to + 1).reduce((sum, p) => sum + p, 0));
  };
  let [from, to] = [-1, 1];
  while (at(from) > 0) from *= 2;
  while (at(to) < 0) to *= 2;
  return shifted(findRoot(at, { from, to })).reduce((sum, risk) => sum + risk, 0);
}
