/**
 * What one operation adds to a log-likelihood CUSUM.
 *
 * With risk p of failure and R the ratio of the odds to be detected to those expected, the
 * log-likelihood ratio of the outcome y (1 failed, 0 not) is
 *   y ln R - ln(1 - p + R p)
 * (Steiner, Cook, Farewell and Treasure, Biostatistics 2000;1:441). With one risk for all it is the
 * Bernoulli CUSUM: ln(p1 / p0) for a failure, ln((1 - p1) / (1 - p0)) for a success.
 */
import { requireBetween } from "./argument-checks.ts";
import { requireRisk } from "./count-distributions.ts";

export interface OutcomeWeights {
  readonly failure: number;
  readonly success: number;
}

/** The weights at `risk`, when the odds of failure are watched for a change by `oddsRatio`. */
export function riskAdjustedWeights(risk: number, oddsRatio: number): OutcomeWeights {
  requireRisk("risk", risk);
  requireOddsRatio(oddsRatio);
  const success = -Math.log1p((oddsRatio - 1) * risk);
  return { failure: Math.log(oddsRatio) + success, success };
}

/** The weights that tell a failure rate of `worse` (or better) from one of `expected`. */
export function bernoulliWeights(expected: number, worse: number): OutcomeWeights {
  requireBetween("expected", expected, 0, 1);
  requireBetween("worse", worse, 0, 1);
  return {
    failure: Math.log(worse / expected),
    success: Math.log1p(-worse) - Math.log1p(-expected),
  };
}

/** The risk whose odds are `oddsRatio` times those of `risk`. */
export function shiftedRisk(risk: number, oddsRatio: number): number {
  return (oddsRatio * risk) / (1 - risk + oddsRatio * risk);
}

/** Refuses an odds ratio that is not above 0, or is 1 and so detects nothing. */
function requireOddsRatio(oddsRatio: number): void {
  requireBetween("oddsRatio", oddsRatio, 0, Infinity);
  if (oddsRatio === 1) throw new RangeError("oddsRatio is 1; expected a change to detect");
}
