import { bernoulliCusum } from "../../../src/statistics/bernoulli-cusum.ts";
import { bootstrap, jackknife } from "../../../src/statistics/bootstrap.ts";
import { percentileInterval } from "../../../src/statistics/bootstrap-interval.ts";
import { cusum } from "../../../src/statistics/cusum.ts";
import {
  cusumLimit,
  cusumRunLength,
  cusumSignalProbabilities,
} from "../../../src/statistics/cusum-run-length.ts";
import {
  casesWithoutFailure,
  enoughCases,
  whatCasesTell,
} from "../../../src/statistics/enough-cases.ts";
import { ewma } from "../../../src/statistics/ewma.ts";
import {
  falseCompetence,
  learningCurveCusum,
} from "../../../src/statistics/learning-curve-cusum.ts";
import {
  expectedMinusObserved,
  observedMinusExpected,
} from "../../../src/statistics/observed-minus-expected.ts";
import { permutationTest } from "../../../src/statistics/permutation-test.ts";
import { riskAdjustedCusum } from "../../../src/statistics/risk-adjusted-cusum.ts";
import { sampleQuantile } from "../../../src/statistics/sample-quantile.ts";
import { casesAgainstTarget, casesPerGroup } from "../../../src/statistics/sample-size.ts";
import { sequentialRatioTest } from "../../../src/statistics/sequential-ratio-test.ts";
import { signedRankTest } from "../../../src/statistics/signed-rank-test.ts";
import { exactCasesPerGroup, twoGroupPower } from "../../../src/statistics/two-group-power.ts";
import { type EdgeTable, over } from "./edge-table.ts";

const series = {
  empty: { failed: [], risk: [] },
  one: { failed: [1], risk: [0.1] },
  "none failed": { failed: [0, 0, 0], risk: [0.1, 0.2, 0.3] },
  "all failed": { failed: [1, 1, 1], risk: [0.1, 0.2, 0.3] },
  "risks 0 and 1": { failed: [0, 1], risk: [0, 1] },
  "against the risk": { failed: [1, 0], risk: [0, 1] },
  "a missing risk": { failed: [1, 0], risk: [0.1, Number.NaN] },
  "a missing outcome": { failed: [1, Number.NaN], risk: [0.1, 0.2] },
};

const mixes = {
  empty: [],
  one: [0.1],
  "all 0": [0, 0],
  "all 1": [1, 1],
  "near 0": [1e-12, 1e-12],
  "near 1": [1 - 1e-12, 1 - 1e-12],
  "0 and some": [0, 0.2],
  missing: [0.1, Number.NaN],
};

const differences = {
  empty: [],
  one: [0.2],
  "all 0": [0, 0, 0, 0, 0, 0],
  "all tied": [0.3, 0.3, 0.3, 0.3, 0.3, 0.3],
  "one 0": [0, 0.1, -0.2, 0.3],
  missing: [0.1, Number.NaN],
};

const learning = { acceptable: 0.1, unacceptable: 0.2, limit: 2 };
const sequential = { acceptable: 0.1, unacceptable: 0.2, alpha: 0.05, beta: 0.1 };
const targets = {
  "the same": [0.1, 0.1],
  "from 0": [0, 0.1],
  "to 1": [0.5, 1],
  near: [0.1, 0.1001],
  missing: [Number.NaN, 0.1],
} as const;
const mean = (values: readonly number[]) => (rows: Int32Array) =>
  rows.length === 0 ? null : rows.reduce((sum, row) => sum + values[row]!, 0) / rows.length;

/** Series of operations, sizes of samples and resampling. */
export const monitoringEdges: EdgeTable = {
  cusum: over(
    { empty: [], one: [1], "never up": [-1, -1], missing: [1, Number.NaN] },
    (increments) => cusum(increments, { limit: 2 }),
  ),
  riskAdjustedCusum: over(series, (each) => riskAdjustedCusum({ ...each, oddsRatio: 2, limit: 2 })),
  bernoulliCusum: over(series, ({ failed }) =>
    bernoulliCusum(failed, { expected: 0.1, watched: 0.2, limit: 2 }),
  ),
  learningCurveCusum: over(series, ({ failed }) => learningCurveCusum(failed, learning)),
  falseCompetence: over({ none: 0, one: 1, missing: Number.NaN }, (operations) =>
    falseCompetence(learning, operations),
  ),
  sequentialRatioTest: over(series, ({ failed }) => sequentialRatioTest(failed, sequential)),
  ewma: over(series, (each) => ewma({ ...each, newest: 0.1, start: 0.1 })),
  observedMinusExpected: over(series, ({ failed, risk }) => observedMinusExpected(failed, risk)),
  expectedMinusObserved: over(series, ({ failed, risk }) => expectedMinusObserved(failed, risk)),
  cusumLimit: over(mixes, (risks) => cusumLimit({ risks, oddsRatio: 2 }, 500)),
  cusumRunLength: over(mixes, (risks) => cusumRunLength({ risks, oddsRatio: 2 }, 2)),
  cusumSignalProbabilities: over(mixes, (risks) =>
    cusumSignalProbabilities({ risks, oddsRatio: 2 }, { limit: 2, operations: 4 }),
  ),
  casesAgainstTarget: over(targets, ([target, other]) => casesAgainstTarget({ target, other })),
  casesPerGroup: over(targets, ([target, other]) => casesPerGroup({ target, other })),
  enoughCases: over(targets, ([target, worse]) => enoughCases({ target, worse })),
  whatCasesTell: over({ none: 0, one: 1, missing: Number.NaN }, (cases) =>
    whatCasesTell(cases, { target: 0.1, worse: 0.2 }),
  ),
  casesWithoutFailure: over({ "target 0": 0, "target 1": 1, missing: Number.NaN }, (target) =>
    casesWithoutFailure(target),
  ),
  twoGroupPower: over(
    { empty: [0, 0], one: [1, 1], "an empty group": [10, 0], missing: [Number.NaN, 5] },
    ([first, second]) =>
      twoGroupPower({ first: { rate: 0.1, total: first! }, second: { rate: 0.5, total: second! } }),
  ),
  exactCasesPerGroup: over(
    { "none and all": [0, 1], missing: [Number.NaN, 1] },
    ([first, second]) => exactCasesPerGroup({ rates: [first!, second!] }),
  ),
  signedRankTest: over(differences, (each) => signedRankTest(each)),
  sampleQuantile: over(differences, (each) => sampleQuantile(each, 0.5)),
  bootstrap: over(differences, (each) => {
    const result = bootstrap(
      { rows: each.length, statistic: mean(each) },
      { seed: 1, replicates: 50 },
    );
    return result === null ? null : [result.estimate, percentileInterval(result)];
  }),
  jackknife: over(differences, (each) => jackknife({ rows: each.length, statistic: mean(each) })),
  permutationTest: over({ empty: [], one: ["a"], "one group": ["a", "a", "a"] }, (group) =>
    permutationTest({ group, statistic: () => 0 }, { seed: 1, permutations: 20 }),
  ),
};
