import { observedMinusExpected } from "../../../statistics/observed-minus-expected.ts";

/** How often a line that is watched all along leaves its limits. Operations, and shares of 1. */
export interface LineOdds {
  /** The probability that it crosses a limit somewhere along the operations shown, nothing changed. */
  readonly falseWithin: number;
  /** The operation by which half of such lines have crossed one; null where more than `furthest`. */
  readonly falseByHalf: number | null;
  /** The probability that it crosses the upper limit within them, the odds of failure doubled. */
  readonly noticedWithin: number;
  /** Operations on average until it does; null where more than can be worked out. */
  readonly noticedAfter: number | null;
}

/** The operation up to which lines are followed. */
export const furthest = 3000;

/**
 * The odds of both mistakes for the mix of risks shown, which is taken to come again in the same order
 * (exact: the distribution of failures so far among lines still within their limits, operation by
 * operation). With nothing changed the mean number of operations to a crossing has no end: limits that
 * hold at one operation grow with the root of their number, and a sum leaves such limits for certain but
 * after no mean time (Blackwell and Freedman, Annals of Mathematical Statistics 1964;35:1345).
 */
export function lineOdds(risks: readonly number[]): LineOdds {
  const shown = risks.length;
  const repeated = Array.from({ length: furthest }, (_, i) => risks[i % shown] ?? 0);
  const { expected, lower, upper } = observedMinusExpected(new Float64Array(furthest), repeated);
  const counts = (limit: Float64Array) =>
    Array.from(limit, (value, i) => Math.round(value + (expected[i] ?? 0)));
  const [fewest, most] = [counts(lower), counts(upper)];
  const unchanged = stillWithin(repeated, { fewest, most });
  const doubled = stillWithin(repeated.map(doubledOdds), { fewest: fewest.map(() => 0), most });
  const half = unchanged.findIndex((share) => share <= 0.5);
  const left = doubled.at(-1) ?? 1;
  return {
    falseWithin: 1 - (unchanged[shown - 1] ?? 1),
    falseByHalf: half < 0 ? null : half + 1,
    noticedWithin: 1 - (doubled[shown - 1] ?? 1),
    noticedAfter: left > 1e-3 ? null : 1 + doubled.reduce((sum, share) => sum + share, 0),
  };
}

function doubledOdds(risk: number): number {
  return (2 * risk) / (1 + risk);
}

/** The share of lines that have kept within their limits up to and with each operation. */
function stillWithin(
  risks: readonly number[],
  { fewest, most }: { readonly fewest: readonly number[]; readonly most: readonly number[] },
): Float64Array {
  const shares = new Float64Array(risks.length);
  let mass = [1];
  let from = 0;
  risks.forEach((risk, i) => {
    const next = Array.from(
      { length: mass.length + 1 },
      (_, k) => (mass[k] ?? 0) * (1 - risk) + (k === 0 ? 0 : (mass[k - 1] ?? 0) * risk),
    );
    const least = Math.max(from, fewest[i] ?? 0);
    mass = next.slice(least - from, (most[i] ?? 0) - from + 1);
    from = least;
    shares[i] = mass.reduce((sum, share) => sum + share, 0);
  });
  return shares;
}
