/**
 * The fifth table of real coverage and size: curves on their other scales and what is read from them,
 * strata, several groups, and paired changes.
 *
 * Eyes are drawn as in `simulated-eyes.ts`; two groups share them by halves and have equal rates, but in
 * the column that says that the second fails twice as often. A fifth of the failures are of another cause
 * where causes compete. Four strata with a quarter of the eyes each have 1/2, 3/4, 1 and 7/4 of the rate;
 * in them the first group has by turns a third and two thirds of the eyes. Changes of acuity are normal
 * around 0 and rounded to a letter (0.02), and exactly 0 in the share of eyes that the rate says.
 */
import { aalenJohansen } from "../../../src/statistics/aalen-johansen.ts";
import { breslowDay } from "../../../src/statistics/breslow-day.ts";
import { chiSquareTest } from "../../../src/statistics/chi-square-test.ts";
import { normalQuantile } from "../../../src/statistics/distributions.ts";
import { stratifiedExact } from "../../../src/statistics/fisher-exact.ts";
import { fisherExactTable } from "../../../src/statistics/fisher-table.ts";
import { hallWellnerBand } from "../../../src/statistics/hall-wellner-band.ts";
import { incidenceAt } from "../../../src/statistics/incidence-at.ts";
import { kaplanMeier } from "../../../src/statistics/kaplan-meier.ts";
import { logRank } from "../../../src/statistics/log-rank.ts";
import {
  mantelHaenszelDifference,
  mantelHaenszelOddsRatio,
  mantelHaenszelRiskRatio,
  mantelHaenszelTest,
} from "../../../src/statistics/mantel-haenszel.ts";
import { nelsonAalen } from "../../../src/statistics/nelson-aalen.ts";
import { restrictedMeanDifference } from "../../../src/statistics/restricted-mean.ts";
import { reverseKaplanMeier } from "../../../src/statistics/reverse-kaplan-meier.ts";
import { type RandomSource, seededRandom } from "../../../src/statistics/seeded-random.ts";
import { signedRankTest } from "../../../src/statistics/signed-rank-test.ts";
import { stepAt, survivalAt } from "../../../src/statistics/survival-at.ts";
import {
  survivalDifferenceAt,
  survivalTestAt,
} from "../../../src/statistics/survival-difference.ts";
import type { SurvivalLimits } from "../../../src/statistics/survival-limits.ts";
import { medianSurvival, survivalQuantile } from "../../../src/statistics/survival-quantile.ts";
import type { TwoByTwo } from "../../../src/statistics/two-by-two.ts";
import { eyeCounts, failureRates } from "./coverage-cells.ts";
import type { CoverageTable } from "./coverage-table.ts";
import { holds, rejects, sharesOver, type Told } from "./shares-of-series.ts";
import { failureDay, SHAPE, type Simulation, simulatedEyes } from "./simulated-eyes.ts";

const settings = { seed: 20_260_404, replicates: 2000, level: 0.95, day: 180 } as const;

export const curveTable: CoverageTable = {
  name: "curve-coverage",
  settings,
  about: [
    "# Real coverage of 95% intervals from curves, strata and pairs, and real size of 5% tests, in percent",
    "",
    "What is drawn is in `curve-cells.ts` and `simulated-eyes.ts`. All simulated:",
    `${settings.replicates} series a cell, seed ${settings.seed}, error about 0.5. Shares are of the series in`,
    "which the interval or the test exists. From the test of curves at one day on the numbers are sizes of",
    "tests.",
  ],
  places: ["rate", "eyes"],
  at: failureRates.flatMap((rate) => eyeCounts.map((eyes) => ({ rate, eyes }))),
  columns: {
    kaplanMeierPlain: "Kaplan–Meier, plain",
    kaplanMeierLog: "Kaplan–Meier, log",
    kaplanMeierLogit: "Kaplan–Meier, logit",
    kaplanMeierArcsine: "Kaplan–Meier, arcsine",
    cumulativeHazard: "Nelson–Aalen",
    band: "Hall–Wellner band",
    quantile: "day of half the failures",
    followUpMedian: "median follow-up",
    curveDifference: "difference of curves",
    curveDifferenceDoubled: "difference of curves, second doubled",
    restrictedMeanDifference: "difference of restricted means",
    incidenceGray: "incidence, Gray's variance",
    mantelHaenszelOddsRatio: "odds ratio, Mantel–Haenszel",
    mantelHaenszelRiskRatio: "risk ratio, Mantel–Haenszel",
    stratifiedDifference: "difference, Mantel–Haenszel, strata",
    stratifiedExactOddsRatio: "odds ratio, exact conditional, strata",
    shift: "Hodges–Lehmann",
    curveTest: "curves at one day",
    restrictedMeanTest: "restricted means",
    taroneWare: "Tarone–Ware",
    peto: "Peto",
    mantelHaenszel: "Mantel–Haenszel",
    mantelHaenszelCorrected: "Mantel–Haenszel, corrected",
    stratifiedExact: "exact, strata",
    stratifiedMidP: "mid-P, strata",
    homogeneity: "Breslow–Day–Tarone",
    chiSquareThree: "chi-square, three groups",
    expectedCountsThree: "three groups, by expected counts",
    signedRank: "signed-rank",
  },
  cell: ({ rate = 0, eyes = 0 }) => {
    const random = seededRandom(settings.seed + eyes * 1000 + Math.round(rate * 1000));
    const simulation = { eyes, rate, day: settings.day, random };
    return sharesOver(settings.replicates, () => ({
      ...ofOneCurve(simulation),
      ...ofTwoCurves(simulation),
      ...ofStrata(simulation),
      ...ofGroups(simulation),
      ...ofChanges(simulation),
    }));
  },
};

function ofOneCurve(simulation: Simulation): Told {
  const { rate, day, random } = simulation;
  const { time, event } = simulatedEyes(simulation);
  const at = (limits: SurvivalLimits) =>
    holds(survivalAt(kaplanMeier({ time, event, limits }), day), 1 - rate);
  const curve = kaplanMeier({ time, event });
  const hazard = nelsonAalen({ time, event });
  const step = stepAt(hazard, day);
  const cause = Int32Array.from(event, (e) => (e === 0 ? 0 : random.below(5) === 0 ? 2 : 1));
  const competing = aalenJohansen({ time, cause, causes: 2, variance: "Gray" });
  return {
    kaplanMeierPlain: at("plain"),
    kaplanMeierLog: at("log"),
    kaplanMeierLogit: at("logit"),
    kaplanMeierArcsine: at("arcsine"),
    cumulativeHazard:
      step < 0
        ? null
        : holds({ lower: hazard.lower[step]!, upper: hazard.upper[step]! }, -Math.log1p(-rate)),
    band: bandHolds(hallWellnerBand(curve, { horizon: day }), simulation),
    quantile: quantileHolds(survivalQuantile(curve, rate / 2), failureDay(rate / 2, simulation)),
    followUpMedian: quantileHolds(medianSurvival(reverseKaplanMeier({ time, event })), MEDIAN_END),
    incidenceGray: holds(incidenceAt(competing, 1, day), rate * 0.8),
  };
}

/** Ends of follow-up are even over the days 90 to 720. */
const MEDIAN_END = 405;

/** A limit that is not reached lies beyond the end; null where neither end is. */
function quantileHolds(
  { lower, upper }: { readonly lower: number | null; readonly upper: number | null },
  truth: number,
): boolean | null {
  if (lower === null) return null;
  return holds({ lower, upper: upper ?? Number.POSITIVE_INFINITY }, truth);
}

/** Whether the band holds the true curve on every day from its first event to the horizon. */
function bandHolds(
  band: ReturnType<typeof hallWellnerBand>,
  { rate, day }: Simulation,
): boolean | null {
  if (band === null) return null;
  const scale = day / (-Math.log1p(-rate)) ** (1 / SHAPE);
  const free = (t: number) => Math.exp(-((t / scale) ** SHAPE));
  return Array.from(band.time).every((from, j) => {
    const to = Math.max(from, (band.time[j + 1] ?? day + 1) - 1);
    const limits = { lower: band.lower[j]!, upper: band.upper[j]! };
    return [from, to].every((t) => holds(limits, free(t)) === true);
  });
}

function ofTwoCurves(simulation: Simulation): Told {
  const { eyes, rate, day } = simulation;
  const half = Math.floor(eyes / 2);
  const draw = (own: number) => simulatedEyes({ ...simulation, eyes: half, rate: own });
  const [one, two, doubled] = [draw(rate), draw(rate), draw(2 * rate)];
  const [first, second, third] = [one, two, doubled].map((each) => kaplanMeier(each));
  const means = restrictedMeanDifference(first!, second!, { horizon: day });
  const joined = {
    time: Float64Array.of(...one.time, ...two.time),
    event: Uint8Array.of(...one.event, ...two.event),
    group: Array.from({ length: 2 * half }, (_, i) => (i < half ? 0 : 1)),
  };
  return {
    curveDifference: holds(survivalDifferenceAt(first!, second!, day), 0),
    curveDifferenceDoubled: holds(survivalDifferenceAt(first!, third!, day), rate),
    curveTest: rejects(survivalTestAt([first!, second!], day)?.pValue),
    restrictedMeanDifference: holds(means, 0),
    restrictedMeanTest: rejects(means?.pValue),
    taroneWare: rejects(logRank({ ...joined, weighting: "Tarone-Ware" }).pValue),
    peto: rejects(logRank({ ...joined, weighting: "Peto" }).pValue),
  };
}

function ofStrata({ eyes, rate, random }: Simulation): Told {
  const tables = [0.5, 0.75, 1, 1.75].map((part, k): TwoByTwo => {
    const total = Math.floor(eyes / 4);
    const own = Math.round((total * (k % 2 === 0 ? 1 : 2)) / 3);
    const group = (number: number) => ({
      failed: failuresOf(number, rate * part, random),
      total: number,
    });
    return { first: group(own), second: group(total - own) };
  });
  const test = mantelHaenszelTest(tables);
  const exact = stratifiedExact(tables);
  return {
    mantelHaenszelOddsRatio: holds(mantelHaenszelOddsRatio(tables), 1),
    mantelHaenszelRiskRatio: holds(mantelHaenszelRiskRatio(tables), 1),
    stratifiedDifference: holds(mantelHaenszelDifference(tables), 0),
    stratifiedExactOddsRatio: holds(exact.oddsRatio, 1),
    mantelHaenszel: rejects(test.pValue),
    mantelHaenszelCorrected: rejects(test.correctedPValue),
    stratifiedExact: rejects(exact.pTwoSided),
    stratifiedMidP: rejects(exact.midP),
    homogeneity: rejects(breslowDay(tables)?.taronePValue),
  };
}

export function failuresOf(eyes: number, rate: number, random: RandomSource): number {
  let failed = 0;
  for (let i = 0; i < eyes; i++) if (random.uniform() < rate) failed++;
  return failed;
}

/** Three groups by chi-square, and by Fisher's test where an expected count is under 5. */
function ofGroups({ eyes, rate, random }: Simulation): Told {
  const total = Math.floor(eyes / 3);
  const groups = [0, 1, 2].map(() => {
    const failed = failuresOf(total, rate, random);
    return [failed, total - failed];
  });
  const { degreesOfFreedom, leastExpected, pValue } = chiSquareTest(groups);
  if (degreesOfFreedom === 0) return { chiSquareThree: null, expectedCountsThree: null };
  return {
    chiSquareThree: rejects(pValue),
    expectedCountsThree: rejects(leastExpected < 5 ? fisherExactTable(groups) : pValue),
  };
}

function ofChanges({ eyes, rate, random }: Simulation): Told {
  const changes = Float64Array.from({ length: eyes }, () => {
    const isSame = random.uniform() < rate;
    const change = 0.3 * normalQuantile(random.uniform());
    return isSame ? 0 : Math.round(change * 50) / 50;
  });
  const test = signedRankTest(changes)!;
  return { shift: holds(test.shift, 0), signedRank: rejects(test.pValue) };
}
