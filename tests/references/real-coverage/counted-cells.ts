/**
 * The fourth table of real coverage and size: what follows from counts alone, as exact sums over all
 * outcomes.
 *
 * Two groups have half the eyes each and equal rates, their failures over equal times two Poisson counts.
 * Expected failures are of eyes of which a quarter each has 1/4, 1/2, 1 and 9/4 of the rate as its risk:
 * observed over expected is truly 1, and the rate of a target truly the target. Pairs are two methods on
 * the same eyes, each failing at the rate apart from the other.
 */
import { exactRatio } from "../../../src/questions/people/exact-ratio.ts";
import { chiSquareTest } from "../../../src/statistics/chi-square-test.ts";
import { jeffreysInterval } from "../../../src/statistics/clopper-pearson-interval.ts";
import { binomialCounts, poissonCounts } from "../../../src/statistics/count-distributions.ts";
import { type CountDistribution, countTest } from "../../../src/statistics/count-test.ts";
import { fisherExact } from "../../../src/statistics/fisher-exact.ts";
import {
  funnelPosition,
  proportionFunnelLimits,
  ratioFunnelLimits,
} from "../../../src/statistics/funnel-limits.ts";
import { mcNemarTest } from "../../../src/statistics/mcnemar-test.ts";
import { scoreDifference } from "../../../src/statistics/miettinen-nurminen.ts";
import { observedMinusExpected } from "../../../src/statistics/observed-minus-expected.ts";
import { pChart } from "../../../src/statistics/p-chart.ts";
import {
  observedAgainstRisks,
  poissonBinomialProbabilities,
} from "../../../src/statistics/poisson-binomial.ts";
import { poissonInterval } from "../../../src/statistics/poisson-interval.ts";
import { rateRatio } from "../../../src/statistics/rate-ratio.ts";
import { oddsRatio } from "../../../src/statistics/ratio-estimates.ts";
import type { TwoByTwo } from "../../../src/statistics/two-by-two.ts";
import { wilsonCorrectedInterval } from "../../../src/statistics/wilson-interval.ts";
import { eyeCounts, failureRates } from "./coverage-cells.ts";
import type { CoverageTable } from "./coverage-table.ts";
import { holds, rejects } from "./shares-of-series.ts";

type Is = boolean | null;
type Shares = Record<string, number | null>;

export const countedTable: CoverageTable = {
  name: "counted-coverage",
  settings: { level: 0.95 },
  about: [
    "# Real coverage of 95% intervals of counts, and real size of 5% tests, in percent",
    "",
    "What is counted is in `counted-cells.ts`: exact sums over all outcomes, no simulation. Shares are of",
    "the outcomes in which the interval or the test exists. From the test of a target on the numbers are",
    "sizes of tests; of limits of a funnel, of a chart and of a running sum, how often an eye count lies",
    "outside where nothing is wrong (those of a period aim at 0.3, the others at 5 at most).",
  ],
  places: ["rate", "eyes"],
  at: failureRates.flatMap((rate) => eyeCounts.map((eyes) => ({ rate, eyes }))),
  columns: {
    wilsonCorrected: "Wilson, corrected",
    jeffreys: "Jeffreys",
    poissonMidP: "Poisson, mid-P",
    poissonByar: "Poisson, Byar",
    scoreDifference: "difference, Miettinen–Nurminen",
    oddsRatioLog: "odds ratio, log",
    conditionalOddsRatio: "odds ratio, exact conditional",
    rateRatio: "rate ratio, exact",
    rateRatioMidP: "rate ratio, mid-P",
    observedExpected: "observed/expected, by risks",
    observedExpectedPoisson: "observed/expected, Poisson",
    targetTest: "binomial test of a target",
    risksTest: "Poisson-binomial test",
    fisherMidP: "Fisher, mid-P",
    yates: "chi-square, Yates",
    expectedCounts: "two groups, by expected counts",
    mcNemar: "McNemar",
    mcNemarCorrected: "McNemar, corrected",
    mcNemarExact: "McNemar, exact",
    mcNemarMidP: "McNemar, mid-P",
    funnelOutside: "outside 95% funnel limits",
    ratioFunnelOutside: "outside 95% limits of a ratio",
    periodOutside: "outside 99.73% limits of a period",
    threeErrorsOutside: "outside 3 standard errors",
    runningSumOutside: "outside limits of observed − expected",
  },
  cell: ({ rate = 0, eyes = 0 }) => ({
    ...ofOneCount(eyes, rate),
    ...ofTwoCounts(eyes, rate),
    ...ofRisks(eyes, rate),
    ...ofPairs(eyes, rate),
  }),
};

function ofOneCount(eyes: number, rate: number): Shares {
  const counts = binomialCounts(eyes, rate);
  const failures = poissonCounts(eyes * rate);
  const over = (is: (x: number) => Is) => shareOver(counts, is);
  const funnel = proportionFunnelLimits(rate, eyes)!;
  return {
    wilsonCorrected: over((x) => holds(wilsonCorrectedInterval(x, eyes), rate)),
    jeffreys: over((x) => holds(jeffreysInterval(x, eyes), rate)),
    poissonMidP: shareOver(failures, (x) =>
      holds(poissonInterval(x, { method: "mid-P" }), eyes * rate),
    ),
    poissonByar: shareOver(failures, (x) =>
      holds(poissonInterval(x, { method: "Byar" }), eyes * rate),
    ),
    targetTest: over((x) => rejects(countTest(x, counts).pTwoSided)),
    funnelOutside: over((x) => funnelPosition(x / eyes, funnel) !== "inside"),
    periodOutside: over((x) => liesOutside(x, { eyes, rate, limits: "exact" })),
    threeErrorsOutside: over((x) => liesOutside(x, { eyes, rate, limits: "three-sigma" })),
  };
}

function liesOutside(
  failed: number,
  { eyes, rate, limits }: { eyes: number; rate: number; limits: "exact" | "three-sigma" },
): boolean {
  const chart = pChart([{ failed, total: eyes }], { target: rate, limits })!;
  return chart.points[0]!.position !== "inside";
}

function ofTwoCounts(eyes: number, rate: number): Shares {
  const total = Math.floor(eyes / 2);
  const counts = binomialCounts(total, rate);
  const failures = poissonCounts(total * rate);
  const over = (is: (table: TwoByTwo) => Is) =>
    shareOverPairs(counts, (x, y) =>
      is({ first: { failed: x, total }, second: { failed: y, total } }),
    );
  const ratio = (method: "exact" | "mid-P") =>
    shareOverPairs(failures, (x, y) =>
      holds(
        rateRatio(
          { first: { events: x, exposure: 1 }, second: { events: y, exposure: 1 } },
          { method },
        ),
        1,
      ),
    );
  return {
    scoreDifference: over((table) => holds(scoreDifference(table), 0)),
    oddsRatioLog: over((table) => holds(oddsRatio(table), 1)),
    conditionalOddsRatio: over((table) => holds(fisherExact(table).oddsRatio, 1)),
    rateRatio: ratio("exact"),
    rateRatioMidP: ratio("mid-P"),
    fisherMidP: over((table) => rejects(fisherExact(table).midP)),
    yates: over((table) => rejects(chiSquareOf(table, true)?.pValue)),
    expectedCounts: over((table) => rejects(byExpectedCounts(table))),
  };
}

function chiSquareOf({ first, second }: TwoByTwo, yates: boolean) {
  const rows = [first, second].map(({ failed, total }) => [failed, total - failed]);
  const test = chiSquareTest(rows, { yates });
  return test.degreesOfFreedom === 0 ? null : test;
}

/** Fisher's test where an expected count is under 5, else chi-square. */
function byExpectedCounts(table: TwoByTwo): number | null {
  const plain = chiSquareOf(table, false);
  if (plain === null) return null;
  return plain.leastExpected < 5 ? fisherExact(table).pTwoSided : plain.pValue;
}

/** The four risks, over and over. */
export function mixedRisks(eyes: number, rate: number): number[] {
  const parts = [0.25, 0.5, 1, 2.25];
  return Array.from({ length: eyes }, (_, i) => rate * parts[i % parts.length]!);
}

function ofRisks(eyes: number, rate: number): Shares {
  const risks = mixedRisks(eyes, rate);
  const probabilities = poissonBinomialProbabilities(risks);
  const expected = risks.reduce((sum, risk) => sum + risk, 0);
  const funnel = ratioFunnelLimits(expected)!;
  const { expected: sums, lower, upper } = observedMinusExpected(new Float64Array(eyes), risks);
  const [centre, least, most] = [sums.at(-1)!, lower.at(-1)!, upper.at(-1)!];
  const over = (is: (x: number) => Is) =>
    shareOfLikely([...probabilities].map((p, x) => ({ p, is: () => is(x) })));
  return {
    observedExpected: over((x) => holds(exactRatio(x, risks), 1)),
    observedExpectedPoisson: over((x) => holds(exactRatio(x, risks, { method: "Poisson" }), 1)),
    risksTest: over((x) => rejects(observedAgainstRisks(x, risks).pTwoSided)),
    ratioFunnelOutside: over((x) => funnelPosition(x / expected, funnel) !== "inside"),
    runningSumOutside: over((x) => x - centre < least - 1e-9 || x - centre > most + 1e-9),
  };
}

function ofPairs(eyes: number, rate: number): Shares {
  const unlike = binomialCounts(eyes, 2 * rate * (1 - rate));
  const over = (p: (test: ReturnType<typeof mcNemarTest>) => number) => {
    let share = 0;
    for (let n = 0; n <= eyes; n++) {
      const probability = unlike.probability(n);
      if (probability < 1e-9) continue;
      const first = binomialCounts(n, 0.5);
      share += probability * shareOver(first, (x) => rejects(p(mcNemarTest(x, n - x))) ?? false)!;
    }
    return share;
  };
  return {
    mcNemar: over(({ pValue }) => pValue),
    mcNemarCorrected: over(({ correctedPValue }) => correctedPValue),
    mcNemarExact: over(({ exactPValue }) => exactPValue),
    mcNemarMidP: over(({ midP }) => midP),
  };
}

interface Outcome {
  readonly p: number;
  readonly is: () => Is;
}

/** The share of the probability in which it is so, among likely outcomes in which it is known. */
function shareOfLikely(outcomes: readonly Outcome[]): number | null {
  let [known, share] = [0, 0];
  for (const { p, is } of outcomes) {
    if (p < 1e-9) continue;
    const told = is();
    if (told !== null) known += p;
    if (told === true) share += p;
  }
  return known === 0 ? null : share / known;
}

function shareOver(counts: CountDistribution, is: (x: number) => Is): number | null {
  return shareOfLikely(likelyCounts(counts).map(({ x, p }) => ({ p, is: () => is(x) })));
}

function shareOverPairs(counts: CountDistribution, is: (x: number, y: number) => Is) {
  const likely = likelyCounts(counts);
  return shareOfLikely(
    likely.flatMap((one) =>
      likely.map((other) => ({ p: one.p * other.p, is: () => is(one.x, other.x) })),
    ),
  );
}

function likelyCounts(counts: CountDistribution): { x: number; p: number }[] {
  const found: { x: number; p: number }[] = [];
  for (let x = 0; x <= counts.most; x++) {
    const p = counts.probability(x);
    if (p >= 1e-9) found.push({ x, p });
    else if (x > counts.mode) break;
  }
  return found;
}
