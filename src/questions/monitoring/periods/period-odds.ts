import { binomialCounts } from "../../../statistics/count-distributions.ts";
import { type FunnelLimits, funnelPosition } from "../../../statistics/funnel-limits.ts";

/** A period's number of known eyes, its limits, and the rate that they stand around. */
export interface PeriodDesign {
  readonly eyes: number;
  readonly limits: FunnelLimits;
  readonly centre: number;
}

/** How often a period lies outside by chance, and how soon by right. Eyes, and shares of 1. */
export interface PeriodOdds {
  /** The probability that at least one of the periods does where the rate is that of its centre. */
  readonly falseWithin: number;
  /** Eyes on average until one does; null where none can. */
  readonly runLengthInControl: number | null;
  /** Eyes on average until one lies above where the rate is doubled; null where it cannot be. */
  readonly runLengthDoubled: number | null;
}

/**
 * Exact by the binomial distribution of each period, periods of these sizes coming again in the same
 * order: eyes until a signal are counted to the end of the period that gives it.
 */
export function periodOdds(periods: readonly PeriodDesign[]): PeriodOdds {
  const known = periods.filter(({ eyes }) => eyes > 0);
  const sizes = known.map(({ eyes }) => eyes);
  const unchanged = known.map((period) => chanceOutside(period, period.centre, ["above", "below"]));
  const canDouble = known.every(({ centre }) => centre > 0 && centre < 0.5);
  const doubled = known.map((period) =>
    canDouble ? chanceOutside(period, 2 * period.centre, ["above"]) : 0,
  );
  return {
    falseWithin: 1 - unchanged.reduce((inside, chance) => inside * (1 - chance), 1),
    runLengthInControl: runLength(sizes, unchanged),
    runLengthDoubled: canDouble ? runLength(sizes, doubled) : null,
  };
}

/** The probability that a period's rate lies on these sides of its limits, at a true rate. */
function chanceOutside(
  { eyes, limits }: PeriodDesign,
  rate: number,
  sides: readonly ReturnType<typeof funnelPosition>[],
): number {
  const { probability } = binomialCounts(eyes, rate);
  const counts = Array.from({ length: eyes + 1 }, (_, failed) => failed);
  return counts
    .filter((failed) => sides.includes(funnelPosition(failed / eyes, limits)))
    .reduce((sum, failed) => sum + probability(failed), 0);
}

/** The eyes of a cycle that are reached, over the probability that the cycle gives a signal. */
function runLength(sizes: readonly number[], chances: readonly number[]): number | null {
  let inside = 1;
  let reached = 0;
  sizes.forEach((eyes, i) => {
    reached += inside * eyes;
    inside *= 1 - (chances[i] ?? 0);
  });
  return inside === 1 ? null : reached / (1 - inside);
}
