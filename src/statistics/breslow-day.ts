/**
 * The Breslow–Day test that the odds ratio is the same in all strata, with Tarone's correction.
 *
 * In each stratum A is the expected count of failures of the first group at the Mantel–Haenszel
 * odds ratio, given the margins, with asymptotic variance 1 / (1/A + 1/B + 1/C + 1/D). The
 * statistic is the sum of (a - A)^2 / var (Breslow and Day 1980, section 4.4); Tarone (1985)
 * subtracts (sum of a - A)^2 / sum of var. Degrees: informative strata less one. A stratum in which
 * a margin is 0 says nothing about the odds ratio and takes no part.
 *
 * With one to three failures expected over all strata the test at 5% is wrong in up to 12% of the
 * samples in which it exists, with more in 4 to 7% (counted in the tables of real coverage among
 * the tests).
 */
import { chiSquareUpperTail } from "./distributions.ts";
import { mantelHaenszelOddsRatio } from "./mantel-haenszel.ts";
import { cellsOf, type TwoByTwo } from "./two-by-two.ts";

export interface HomogeneityTest {
  readonly statistic: number;
  readonly pValue: number;
  readonly taroneStatistic: number;
  readonly taronePValue: number;
  readonly degreesOfFreedom: number;
}

/** The test; null when there is no common odds ratio or fewer than two informative strata. */
export function breslowDay(strata: readonly TwoByTwo[]): HomogeneityTest | null {
  const odds = mantelHaenszelOddsRatio(strata);
  const informative = strata.filter(hasInformation);
  if (odds === null || informative.length < 2) return null;
  const parts = informative.map((table) => fitted(table, odds.estimate));
  const sum = (value: (part: Fitted) => number) => parts.reduce((t, part) => t + value(part), 0);
  const statistic = sum(({ difference, variance }) => difference ** 2 / variance);
  const correction = sum((part) => part.difference) ** 2 / sum((part) => part.variance);
  const taroneStatistic = Math.max(0, statistic - correction);
  const degreesOfFreedom = parts.length - 1;
  return {
    statistic,
    pValue: chiSquareUpperTail(statistic, degreesOfFreedom),
    taroneStatistic,
    taronePValue: chiSquareUpperTail(taroneStatistic, degreesOfFreedom),
    degreesOfFreedom,
  };
}

interface Fitted {
  readonly difference: number;
  readonly variance: number;
}

/** Observed less fitted failures of the first group and its variance, at an odds ratio. */
function fitted(table: TwoByTwo, odds: number): Fitted {
  const { firstFailed, secondFailed, total } = cellsOf(table);
  const n1 = table.first.total;
  const failed = firstFailed + secondFailed;
  const expected = fittedCount({ n1, failed, total }, odds);
  const cells = [expected, n1 - expected, failed - expected, total - n1 - failed + expected];
  const variance = 1 / cells.reduce((sum, cell) => sum + 1 / cell, 0);
  return { difference: firstFailed - expected, variance };
}

/** The A with A (n2 - m + A) = odds (n1 - A)(m - A), by the form of the root that is stable. */
function fittedCount(
  { n1, failed, total }: { n1: number; failed: number; total: number },
  odds: number,
): number {
  const a = odds - 1;
  const b = total - n1 - failed + odds * (n1 + failed);
  const c = odds * n1 * failed;
  return (2 * c) / (b + Math.sqrt(Math.max(0, b * b - 4 * a * c)));
}

function hasInformation(table: TwoByTwo): boolean {
  const { firstFailed, firstHeld, secondFailed, secondHeld } = cellsOf(table);
  const margins = [
    firstFailed + firstHeld,
    secondFailed + secondHeld,
    firstFailed + secondFailed,
    firstHeld + secondHeld,
  ];
  return margins.every((margin) => margin > 0);
}
