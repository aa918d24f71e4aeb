/**
 * Wald's sequential probability ratio test of an acceptable against an unacceptable failure rate
 * (Wald 1947, Sequential Analysis; for operations: Grunkemeier and colleagues, Annals of Thoracic
 * Surgery 2003;76:663).
 *
 * With rates p0 < p1, the path is failures less s for each operation,
 *   s = ln((1 - p0) / (1 - p1)) / ln(odds ratio of p1 to p0).
 * At or above h1 = ln((1 - beta) / alpha) / ln(odds ratio) the rate counts as unacceptable, at or
 * below -h0 = -ln((1 - alpha) / beta) / ln(odds ratio) as acceptable; between them nothing is
 * decided. alpha is the chance to call an acceptable rate unacceptable, beta the reverse.
 */
import { readEvent, requireBetween } from "./argument-checks.ts";

export interface SequentialDesign {
  readonly acceptable: number;
  readonly unacceptable: number;
  readonly alpha: number;
  readonly beta: number;
}

export interface SequentialBoundaries {
  /** Subtracted for each operation. */
  readonly decrement: number;
  readonly upper: number;
  readonly lower: number;
}

export interface SequentialPath extends SequentialBoundaries {
  readonly values: Float64Array;
  readonly decision: "unacceptable" | "acceptable" | "undecided";
  /** The position of the operation that decided; null while undecided. */
  readonly decidedAt: number | null;
}

/** The two boundaries and the decrement; refuses rates that are not in rising order. */
export function sequentialBoundaries(design: SequentialDesign): SequentialBoundaries {
  const { acceptable, unacceptable, alpha, beta } = design;
  requireBetween("unacceptable", unacceptable, 0, 1);
  requireBetween("acceptable", acceptable, 0, unacceptable);
  requireBetween("alpha", alpha, 0, 1);
  requireBetween("beta", beta, 0, 1 - alpha);
  const success = Math.log((1 - acceptable) / (1 - unacceptable));
  const logOdds = Math.log(unacceptable / acceptable) + success;
  return {
    decrement: success / logOdds,
    upper: Math.log((1 - beta) / alpha) / logOdds,
    lower: -Math.log((1 - alpha) / beta) / logOdds,
  };
}

/** The path over outcomes in the order of operation; it is drawn on after the decision. */
export function sequentialRatioTest(
  failed: ArrayLike<number | boolean>,
  design: SequentialDesign,
): SequentialPath {
  const boundaries = sequentialBoundaries(design);
  let count = 0;
  const values = Float64Array.from({ length: failed.length }, (_, i) => {
    count += readEvent(failed[i], i);
    // counted afresh, so that many small decrements do not add up their rounding
    return count - (i + 1) * boundaries.decrement;
  });
  const at = values.findIndex((value) => value >= boundaries.upper || value <= boundaries.lower);
  const decision =
    at < 0 ? "undecided" : values[at]! >= boundaries.upper ? "unacceptable" : "acceptable";
  return { ...boundaries, values, decision, decidedAt: at < 0 ? null : at };
}
