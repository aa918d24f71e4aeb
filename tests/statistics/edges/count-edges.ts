import { fitBetaBinomial, modelOf } from "../../../src/statistics/beta-binomial.ts";
import {
  betaBinomialMoments,
  intraclassCorrelation,
} from "../../../src/statistics/beta-binomial-moments.ts";
import { breslowDay } from "../../../src/statistics/breslow-day.ts";
import { chiSquareTest } from "../../../src/statistics/chi-square-test.ts";
import {
  clopperPearsonInterval,
  jeffreysInterval,
} from "../../../src/statistics/clopper-pearson-interval.ts";
import { clusteredComparison } from "../../../src/statistics/clustered-comparison.ts";
import { clusteredProportion } from "../../../src/statistics/clustered-proportion.ts";
import { cochranArmitage } from "../../../src/statistics/cochran-armitage.ts";
import { binomialCounts, poissonCounts } from "../../../src/statistics/count-distributions.ts";
import { countTest } from "../../../src/statistics/count-test.ts";
import { fisherExact, stratifiedExact } from "../../../src/statistics/fisher-exact.ts";
import { fisherExactTable } from "../../../src/statistics/fisher-table.ts";
import {
  proportionFunnelLimits,
  ratioFunnelLimits,
} from "../../../src/statistics/funnel-limits.ts";
import {
  mantelHaenszelDifference,
  mantelHaenszelOddsRatio,
  mantelHaenszelRiskRatio,
  mantelHaenszelTest,
} from "../../../src/statistics/mantel-haenszel.ts";
import { mcNemarTest } from "../../../src/statistics/mcnemar-test.ts";
import { midPInterval } from "../../../src/statistics/mid-p-interval.ts";
import {
  scoreDifference,
  scoreOddsRatio,
  scoreRatio,
} from "../../../src/statistics/miettinen-nurminen.ts";
import { newcombeDifference } from "../../../src/statistics/newcombe-difference.ts";
import { observedExpected } from "../../../src/statistics/observed-expected.ts";
import { overdispersion } from "../../../src/statistics/overdispersion.ts";
import { pChart } from "../../../src/statistics/p-chart.ts";
import {
  observedAgainstRisks,
  poissonBinomialProbabilities,
} from "../../../src/statistics/poisson-binomial.ts";
import { poissonInterval } from "../../../src/statistics/poisson-interval.ts";
import { rankUncertainty } from "../../../src/statistics/rank-uncertainty.ts";
import { rateRatio } from "../../../src/statistics/rate-ratio.ts";
import { oddsRatio, riskRatio } from "../../../src/statistics/ratio-estimates.ts";
import { shrunkenRates } from "../../../src/statistics/shrunken-rates.ts";
import type { Part, TwoByTwo } from "../../../src/statistics/two-by-two.ts";
import {
  wilsonCorrectedInterval,
  wilsonInterval,
} from "../../../src/statistics/wilson-interval.ts";
import { type EdgeTable, over } from "./edge-table.ts";

const part = (failed: number, total: number): Part => ({ failed, total });
const table = (a: readonly [number, number], b: readonly [number, number]): TwoByTwo => ({
  first: part(...a),
  second: part(...b),
});

const parts = {
  empty: part(0, 0),
  "one failed": part(1, 1),
  "one held": part(0, 1),
  "none failed": part(0, 20),
  "all failed": part(20, 20),
  "more than all": part(2, 1),
  "not whole": part(1.5, 3),
  missing: part(Number.NaN, 3),
};

const tables = {
  empty: table([0, 0], [0, 0]),
  "an empty group": table([1, 5], [0, 0]),
  "one each": table([1, 1], [0, 1]),
  "none failed": table([0, 10], [0, 20]),
  "all failed": table([10, 10], [20, 20]),
  "all against none": table([10, 10], [0, 10]),
  "none in one": table([0, 10], [3, 10]),
  missing: table([Number.NaN, 5], [1, 5]),
};

const strata = {
  empty: [],
  "one stratum": [table([2, 5], [1, 6])],
  "an empty group": [table([2, 5], [0, 0])],
  "none failed": [table([0, 5], [0, 6]), table([0, 2], [0, 2])],
  "all failed": [table([5, 5], [6, 6]), table([2, 2], [2, 2])],
  "one stratum that tells": [table([2, 5], [1, 6]), table([0, 4], [0, 3])],
  missing: [table([2, 5], [1, Number.NaN])],
};

const grids: Readonly<Record<string, readonly (readonly number[])[]>> = {
  empty: [],
  "empty cells": [
    [0, 0],
    [0, 0],
  ],
  "one group": [[3, 4]],
  "an empty row": [
    [3, 4],
    [0, 0],
  ],
  "none failed": [
    [0, 4],
    [0, 5],
    [0, 6],
  ],
  "all failed": [
    [4, 0],
    [5, 0],
    [6, 0],
  ],
  "all of one, none of another": [
    [4, 0],
    [0, 5],
    [0, 6],
  ],
  missing: [
    [1, Number.NaN],
    [2, 3],
  ],
};

const units = {
  empty: [],
  one: [part(1, 5)],
  "none failed": [part(0, 5), part(0, 8), part(0, 3)],
  "all failed": [part(5, 5), part(8, 8), part(3, 3)],
  "an empty unit": [part(1, 5), part(0, 0), part(2, 6)],
  "all the same": [part(1, 5), part(1, 5), part(1, 5)],
  missing: [part(1, 5), part(Number.NaN, 5)],
};

const counts = { none: 0, one: 1, negative: -1, "not whole": 0.5, missing: Number.NaN };
const belief = { alpha: 1, beta: 4 };

/** Proportions, tables, counts and units. */
export const countEdges: EdgeTable = {
  wilsonInterval: over(parts, ({ failed, total }) => wilsonInterval(failed, total)),
  wilsonCorrectedInterval: over(parts, ({ failed, total }) =>
    wilsonCorrectedInterval(failed, total),
  ),
  clopperPearsonInterval: over(parts, ({ failed, total }) => clopperPearsonInterval(failed, total)),
  jeffreysInterval: over(parts, ({ failed, total }) => jeffreysInterval(failed, total)),
  midPInterval: over(parts, ({ failed, total }) => midPInterval(failed, total)),
  newcombeDifference: over(tables, (each) => newcombeDifference(each)),
  scoreDifference: over(tables, (each) => scoreDifference(each)),
  scoreRatio: over(tables, (each) => scoreRatio(each)),
  scoreOddsRatio: over(tables, (each) => scoreOddsRatio(each)),
  riskRatio: over(tables, (each) => riskRatio(each)),
  oddsRatio: over(tables, (each) => oddsRatio(each)),
  fisherExact: over(tables, (each) => fisherExact(each)),
  stratifiedExact: over(strata, (each) => stratifiedExact(each)),
  mantelHaenszelOddsRatio: over(strata, (each) => mantelHaenszelOddsRatio(each)),
  mantelHaenszelRiskRatio: over(strata, (each) => mantelHaenszelRiskRatio(each)),
  mantelHaenszelDifference: over(strata, (each) => mantelHaenszelDifference(each)),
  mantelHaenszelTest: over(strata, (each) => mantelHaenszelTest(each)),
  breslowDay: over(strata, (each) => breslowDay(each)),
  fisherExactTable: over(grids, (each) => fisherExactTable(each)),
  chiSquareTest: over(grids, (each) => chiSquareTest(each)),
  mcNemarTest: over(counts, (each) => mcNemarTest(each, 0)),
  cochranArmitage: over(units, (each) => cochranArmitage(each)),
  clusteredProportion: over(
    {
      empty: { failed: [], cluster: [] },
      one: { failed: [1], cluster: ["a"] },
      "none failed": { failed: [0, 0, 0], cluster: ["a", "a", "b"] },
      "all failed": { failed: [1, 1, 1], cluster: ["a", "a", "b"] },
      "one cluster": { failed: [1, 0], cluster: ["a", "a"] },
      missing: { failed: [1, Number.NaN], cluster: ["a", "b"] },
    },
    ({ failed, cluster }) => clusteredProportion(failed, cluster),
  ),
  clusteredComparison: over(
    {
      empty: [[], []],
      "an empty group": [[1, 0], []],
      "one each": [[1], [0]],
      "none failed": [
        [0, 0, 0],
        [0, 0],
      ],
      "all failed": [
        [1, 1, 1],
        [1, 1],
      ],
      missing: [[1, Number.NaN], [0]],
    },
    ([first, second]) => {
      const group = (failed: readonly number[]) => ({
        failed,
        cluster: failed.map((_, i) => i >> 1),
      });
      return clusteredComparison(group(first!), group(second!));
    },
  ),
  poissonInterval: over(counts, (each) => poissonInterval(each)),
  countTest: over(counts, (each) => countTest(each, poissonCounts(0))),
  binomialCounts: over(counts, (each) => binomialCounts(each, 0)),
  poissonCounts: over(counts, (each) => poissonCounts(each)),
  observedExpected: over(
    { nothing: [0, 0], "none of some": [0, 2], "some of none": [2, 0], missing: [1, Number.NaN] },
    ([observed, expected]) => observedExpected(observed!, expected!),
  ),
  rateRatio: over(
    {
      none: [0, 0],
      "none in one": [0, 3],
      "all in one": [3, 0],
      "no exposure": [1, 3, 0],
      missing: [Number.NaN, 1],
      "a missing exposure": [1, 3, Number.NaN],
    },
    ([first, second, exposure = 10]) =>
      rateRatio({
        first: { events: first!, exposure },
        second: { events: second!, exposure: 20 },
      }),
  ),
  poissonBinomialProbabilities: over(
    { empty: [], "all 0": [0, 0], "all 1": [1, 1], missing: [0.5, Number.NaN] },
    (risks) => poissonBinomialProbabilities(risks),
  ),
  observedAgainstRisks: over(
    { empty: [], "all 0": [0, 0], "all 1": [1, 1], missing: [0.5, Number.NaN] },
    (risks) => observedAgainstRisks(0, risks),
  ),
  proportionFunnelLimits: over(counts, (total) => proportionFunnelLimits(0.1, total)),
  ratioFunnelLimits: over(counts, (expected) => ratioFunnelLimits(expected)),
  overdispersion: over(
    {
      empty: [],
      one: [0.1],
      "all at the target": [0.2, 0.2, 0.2],
      missing: [0.1, Number.NaN],
    },
    (values) => overdispersion({ values, standardErrors: values.map(() => 0.1), target: 0.2 }),
  ),
  pChart: over(units, (each) => pChart(each)),
  betaBinomialMoments: over(units, (each) => betaBinomialMoments(each)),
  intraclassCorrelation: over(units, (each) => intraclassCorrelation(each)),
  fitBetaBinomial: over(units, (each) => fitBetaBinomial(each)),
  shrunkenRates: over(units, (each) => shrunkenRates(each, modelOf(0.1, 0.05))),
  rankUncertainty: over(
    { empty: [], one: [belief], tied: [belief, belief], missing: [{ alpha: Number.NaN, beta: 1 }] },
    (beliefs) => rankUncertainty(beliefs),
  ),
};
