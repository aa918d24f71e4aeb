import { aalenJohansen } from "../../../src/statistics/aalen-johansen.ts";
import { clusteredAalenJohansen } from "../../../src/statistics/clustered-aalen-johansen.ts";
import { clusteredKaplanMeier } from "../../../src/statistics/clustered-kaplan-meier.ts";
import { clustersAtRisk, limitedByClusters } from "../../../src/statistics/clusters-at-risk.ts";
import { completenessIndex } from "../../../src/statistics/completeness-index.ts";
import { concordance } from "../../../src/statistics/concordance.ts";
import { grayTest } from "../../../src/statistics/gray-test.ts";
import { hallWellnerBand } from "../../../src/statistics/hall-wellner-band.ts";
import { incidenceAt } from "../../../src/statistics/incidence-at.ts";
import { kaplanMeier } from "../../../src/statistics/kaplan-meier.ts";
import { logRank, logRankTrend } from "../../../src/statistics/log-rank.ts";
import { nelsonAalen } from "../../../src/statistics/nelson-aalen.ts";
import {
  restrictedMean,
  restrictedMeanDifference,
} from "../../../src/statistics/restricted-mean.ts";
import { reverseKaplanMeier } from "../../../src/statistics/reverse-kaplan-meier.ts";
import { atRiskAt, survivalAt } from "../../../src/statistics/survival-at.ts";
import {
  survivalDifferenceAt,
  survivalTestAt,
} from "../../../src/statistics/survival-difference.ts";
import { medianSurvival, survivalQuantile } from "../../../src/statistics/survival-quantile.ts";
import { type EdgeTable, over } from "./edge-table.ts";

const followUps = {
  empty: { time: [], event: [] },
  "one failed": { time: [5], event: [1] },
  "one censored": { time: [5], event: [0] },
  "all failed": { time: [1, 2, 3], event: [1, 1, 1] },
  "none failed": { time: [1, 2, 3], event: [0, 0, 0] },
  "all tied": { time: [4, 4, 4, 4], event: [1, 1, 0, 0] },
  "at time 0": { time: [0, 0, 3], event: [1, 0, 0] },
  "all at time 0": { time: [0, 0], event: [1, 1] },
  "a missing time": { time: [1, Number.NaN], event: [1, 0] },
  "a negative time": { time: [1, -2], event: [1, 0] },
  "a missing event": { time: [1, 2], event: [1, Number.NaN] },
  "lengths that differ": { time: [1, 2], event: [1] },
};

const grouped = {
  empty: { time: [], event: [], group: [] },
  one: { time: [5], event: [1], group: ["a"] },
  "one group": { time: [1, 2, 3], event: [1, 0, 1], group: ["a", "a", "a"] },
  "an empty group": { time: [1, 2], event: [1, 1], group: ["a", "b"], groups: ["a", "b", "c"] },
  "none failed": { time: [1, 2, 3], event: [0, 0, 0], group: ["a", "b", "a"] },
  "all failed": { time: [1, 2, 3], event: [1, 1, 1], group: ["a", "b", "a"] },
  "all tied": { time: [4, 4, 4, 4], event: [1, 1, 0, 0], group: ["a", "b", "a", "b"] },
  "at time 0": { time: [0, 0, 3], event: [1, 0, 1], group: ["a", "b", "b"] },
  "a missing group": { time: [1, 2], event: [1, 1], group: [1, Number.NaN] },
  "a missing event": { time: [1, 2], event: [1, Number.NaN], group: ["a", "b"] },
  "a missing time": { time: [1, Number.NaN], event: [1, 1], group: ["a", "b"] },
  "lengths that differ": { time: [1, 2], event: [1, 1], group: ["a"] },
  "a stratum of one group": {
    ...{ time: [1, 2, 3, 4], event: [1, 1, 1, 0], group: ["a", "b", "a", "a"] },
    strata: [1, 1, 2, 2],
  },
  "a stratum each": { time: [1, 2], event: [1, 1], group: ["a", "b"], strata: [1, 2] },
};

const causes = (event: readonly number[]) => event.map((e, i) => (e === 1 ? 1 + (i % 2) : e));
const complete = kaplanMeier({ time: [1, 2, 3, 4], event: [1, 0, 1, 0] });

/** Follow-up in time, with one kind of event and with several. */
export const survivalEdges: EdgeTable = {
  kaplanMeier: over(followUps, (each) => kaplanMeier(each)),
  reverseKaplanMeier: over(followUps, (each) => reverseKaplanMeier(each)),
  clusteredKaplanMeier: {
    ...over(followUps, (each) =>
      clusteredKaplanMeier({ ...each, cluster: each.time.map((_, i) => i >> 1) }),
    ),
    "one cluster": () => clusteredKaplanMeier({ time: [1, 2], event: [1, 0], cluster: ["a", "a"] }),
    "a missing cluster": () =>
      clusteredKaplanMeier({ time: [1, 2], event: [1, 0], cluster: [1, Number.NaN] }),
  },
  limitedByClusters: over(followUps, (each) => {
    const cluster = each.time.map((_, i) => i >> 1);
    return limitedByClusters(
      clusteredKaplanMeier({ ...each, cluster }),
      clustersAtRisk(each.time, cluster),
    );
  }),
  nelsonAalen: over(followUps, (each) => nelsonAalen(each)),
  survivalAt: over(followUps, (each) => survivalAt(kaplanMeier(each), 2)),
  atRiskAt: over(followUps, (each) => atRiskAt(kaplanMeier(each), [0, 2, 9])),
  medianSurvival: over(followUps, (each) => medianSurvival(kaplanMeier(each))),
  survivalQuantile: over(followUps, (each) => survivalQuantile(kaplanMeier(each), 0.9)),
  restrictedMean: over(followUps, (each) => restrictedMean(kaplanMeier(each), 2)),
  restrictedMeanDifference: over(followUps, (each) =>
    restrictedMeanDifference(kaplanMeier(each), complete, { horizon: 2 }),
  ),
  survivalDifferenceAt: over(followUps, (each) =>
    survivalDifferenceAt(kaplanMeier(each), complete, 2),
  ),
  survivalTestAt: over(followUps, (each) =>
    survivalTestAt([kaplanMeier(each), complete, complete], 2),
  ),
  hallWellnerBand: over(followUps, (each) => hallWellnerBand(kaplanMeier(each))),
  completenessIndex: over(followUps, ({ time, event }) =>
    completenessIndex(
      time,
      event,
      time.map(() => 6),
    ),
  ),
  concordance: {
    ...over(followUps, (each) => concordance({ ...each, score: each.time.map((_, i) => i) })),
    "a missing score": () => concordance({ time: [1, 2], event: [1, 0], score: [1, Number.NaN] }),
    "scores all tied": () => concordance({ time: [1, 2], event: [1, 0], score: [3, 3] }),
    "a missing stratum": () =>
      concordance({ time: [1, 2], event: [1, 0], score: [1, 2], strata: [1, Number.NaN] }),
    "a missing cluster": () =>
      concordance({ time: [1, 2], event: [1, 0], score: [1, 2], cluster: [1, Number.NaN] }),
  },
  logRank: over(grouped, (each) => logRank(each)),
  logRankTrend: over(grouped, (each) => logRankTrend(logRank(each))),
  aalenJohansen: over(followUps, ({ time, event }) =>
    aalenJohansen({ time, cause: causes(event), causes: 2 }),
  ),
  clusteredAalenJohansen: over(followUps, ({ time, event }) =>
    clusteredAalenJohansen({
      time,
      cause: causes(event),
      causes: 2,
      cluster: time.map((_, i) => i >> 1),
    }),
  ),
  incidenceAt: over(followUps, ({ time, event }) =>
    incidenceAt(aalenJohansen({ time, cause: causes(event), causes: 2 }), 1, 2),
  ),
  grayTest: {
    ...over(grouped, ({ event, ...each }) => grayTest({ ...each, cause: causes(event) })),
    "a missing stratum": () =>
      grayTest({ time: [1, 2], cause: [1, 2], group: ["a", "b"], strata: [1, Number.NaN] }),
    "delayed entry": () =>
      grayTest({ time: [1, 2], cause: [1, 2], group: ["a", "b"], entry: [0, 1] } as never),
  },
};
