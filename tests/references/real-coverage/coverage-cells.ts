/**
 * How often the intervals and tests of this product are right at the sizes of a surgical audit: the
 * real coverage of 95% intervals, and the real size of tests at 5%, for a number of eyes and a rate
 * of failure.
 *
 * Where outcomes can be counted out (proportions, differences, Poisson counts, tests of two by
 * two tables) the numbers are exact sums over all of them. Curves and the log-rank test are
 * simulated, each cell from a seed of its own.
 *
 * Simulated eyes: see `simulated-eyes.ts`. Two groups share the eyes by halves.
 */
import { clopperPearsonInterval } from "../../../src/statistics/clopper-pearson-interval.ts";
import { binomialCounts, poissonCounts } from "../../../src/statistics/count-distributions.ts";
import type { CountDistribution } from "../../../src/statistics/count-test.ts";
import { kaplanMeier } from "../../../src/statistics/kaplan-meier.ts";
import { logRank } from "../../../src/statistics/log-rank.ts";
import { newcombeDifference } from "../../../src/statistics/newcombe-difference.ts";
import { poissonInterval } from "../../../src/statistics/poisson-interval.ts";
import { seededRandom } from "../../../src/statistics/seeded-random.ts";
import { survivalAt } from "../../../src/statistics/survival-at.ts";
import { twoGroupPower } from "../../../src/statistics/two-group-power.ts";
import { wilsonInterval } from "../../../src/statistics/wilson-interval.ts";
import { type Simulation, simulatedEyes } from "./simulated-eyes.ts";

export const eyeCounts = [20, 50, 100, 200, 500] as const;
export const failureRates = [0.02, 0.05, 0.13, 0.3] as const;
export const settings = { seed: 20_250_101, replicates: 5000, level: 0.95, day: 180 } as const;

/** Coverage of intervals and size of tests, as shares; null where nothing could be estimated. */
export interface CoverageCell {
  readonly eyes: number;
  readonly rate: number;
  readonly wilson: number;
  readonly clopperPearson: number;
  readonly poissonExact: number;
  readonly newcombeEqual: number;
  /** Second group with twice the rate. */
  readonly newcombeDoubled: number;
  readonly kaplanMeierLogLog: number;
  /** Share of simulated curves that did not reach the day; left out of the coverage. */
  readonly kaplanMeierUnknown: number;
  readonly logRankSize: number;
  readonly fisherSize: number;
  readonly chiSquareSize: number;
}

/** One cell of the table; the seed is that of the settings and the cell's own place. */
export function coverageCell(eyes: number, rate: number): CoverageCell {
  const random = seededRandom(settings.seed + eyes * 1000 + Math.round(rate * 1000));
  const counts = binomialCounts(eyes, rate);
  const half = Math.floor(eyes / 2);
  const groups = { first: { rate, total: half }, second: { rate, total: half } };
  const failures = poissonCounts(eyes * rate);
  return {
    eyes,
    rate,
    wilson: coverage(counts, rate, (x) => wilsonInterval(x, eyes)!),
    clopperPearson: coverage(counts, rate, (x) => clopperPearsonInterval(x, eyes)!),
    poissonExact: coverage(failures, eyes * rate, (x) => poissonInterval(x)),
    newcombeEqual: differenceCoverage(half, rate, rate),
    newcombeDoubled: differenceCoverage(half, rate, 2 * rate),
    ...curveCoverage({ eyes, rate, day: settings.day, random }),
    logRankSize: logRankSize({ eyes, rate, day: settings.day, random }),
    fisherSize: twoGroupPower(groups),
    chiSquareSize: twoGroupPower(groups, { test: "chi-square" }),
  };
}

interface Limits {
  readonly lower: number;
  readonly upper: number;
}

const holds = ({ lower, upper }: Limits, truth: number) =>
  lower <= truth + 1e-12 && truth - 1e-12 <= upper;

function coverage(
  distribution: CountDistribution,
  truth: number,
  interval: (count: number) => Limits,
): number {
  let covered = 0;
  for (let x = 0; x <= distribution.most; x++) {
    if (x > distribution.mode && distribution.upperTail(x) < 1e-15) break;
    if (holds(interval(x), truth)) covered += distribution.probability(x);
  }
  return covered;
}

function differenceCoverage(total: number, first: number, second: number): number {
  const one = binomialCounts(total, first);
  const two = binomialCounts(total, second);
  const likely = (p: number) => p > 1e-12;
  let covered = 0;
  for (let x = 0; x <= total; x++) {
    if (!likely(one.probability(x))) continue;
    for (let y = 0; y <= total; y++) {
      if (!likely(two.probability(y))) continue;
      const table = { first: { failed: x, total }, second: { failed: y, total } };
      const limits = newcombeDifference(table)!;
      if (holds(limits, first - second)) covered += one.probability(x) * two.probability(y);
    }
  }
  return covered;
}

function curveCoverage(simulation: Simulation) {
  let covered = 0;
  let unknown = 0;
  for (let r = 0; r < settings.replicates; r++) {
    const curve = kaplanMeier(simulatedEyes(simulation));
    const estimate = survivalAt(curve, settings.day);
    if (estimate === null) unknown++;
    else if (holds(estimate, 1 - simulation.rate)) covered++;
  }
  return {
    kaplanMeierLogLog: covered / (settings.replicates - unknown),
    kaplanMeierUnknown: unknown / settings.replicates,
  };
}

function logRankSize(simulation: Simulation): number {
  const group = Array.from({ length: simulation.eyes }, (_, i) => i % 2);
  let rejected = 0;
  for (let r = 0; r < settings.replicates; r++) {
    if (logRank({ ...simulatedEyes(simulation), group }).pValue <= 0.05) rejected++;
  }
  return rejected / settings.replicates;
}
