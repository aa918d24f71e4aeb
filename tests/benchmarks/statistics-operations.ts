/**
 * What the benchmark times, and how fast it is to be: times faster than the same in R's survival, cmprsk
 * and stats at 20,000, 200,000 and 1,000,000 rows, and how steeply the time may grow with the rows (the
 * slope of its logarithm on theirs from 20,000 up). The comparator of Fine and Gray's regression grows with
 * the square of the rows, and is asked up to 20,000 alone.
 */
import { aalenJohansen } from "../../src/statistics/aalen-johansen.ts";
import { clopperPearsonInterval } from "../../src/statistics/clopper-pearson-interval.ts";
import { type CoxFit, coxRegression } from "../../src/statistics/cox-regression.ts";
import { fineGray } from "../../src/statistics/fine-gray.ts";
import { gatherWhole } from "../../src/statistics/gather.ts";
import { codeGroups, groupSizes, rowsByCode } from "../../src/statistics/group-codes.ts";
import { kaplanMeier } from "../../src/statistics/kaplan-meier.ts";
import { logRank } from "../../src/statistics/log-rank.ts";
import { logisticRegression } from "../../src/statistics/logistic-regression.ts";
import { proportionalHazardsTest } from "../../src/statistics/proportional-hazards-test.ts";
import { riskAdjustedCusum } from "../../src/statistics/risk-adjusted-cusum.ts";
import { wilsonInterval } from "../../src/statistics/wilson-interval.ts";
import type { BenchmarkData } from "./statistics-data.ts";

export interface Operation {
  readonly run: (data: BenchmarkData) => unknown;
  /** Times faster than the comparator at the three sizes. */
  readonly aims: readonly [number, number, number];
  /** The steepest slope allowed: 1.15 for counted days, 1.2 where times are sorted, and for Cox. */
  readonly slope: number;
}

const COUNTED = 1.15;
const SORTED = 1.2;

const cox = ({ days, event, covariates }: BenchmarkData) =>
  coxRegression({ time: days, event, covariates });

const fits = new WeakMap<BenchmarkData, CoxFit>();

/** The fit of the data, made once. */
export function fitOf(data: BenchmarkData): CoxFit {
  const fit = fits.get(data) ?? cox(data);
  fits.set(data, fit);
  return fit;
}

export const operations: Readonly<Record<string, Operation>> = {
  kaplanMeier: {
    run: ({ days, event }) => kaplanMeier({ time: days, event }),
    aims: [50, 250, 350],
    slope: COUNTED,
  },
  kaplanMeierContinuous: {
    run: ({ continuous, event }) => kaplanMeier({ time: continuous, event }),
    aims: [12, 12, 10],
    slope: SORTED,
  },
  logRank: {
    run: ({ days, event, group }) => logRank({ time: days, event, group }),
    aims: [120, 220, 250],
    slope: COUNTED,
  },
  stratifiedLogRank: {
    run: ({ days, event, group, stratum }) =>
      logRank({ time: days, event, group, strata: stratum }),
    aims: [35, 100, 130],
    slope: COUNTED,
  },
  logRankContinuous: {
    run: ({ continuous, event, group }) => logRank({ time: continuous, event, group }),
    aims: [20, 18, 13],
    slope: SORTED,
  },
  aalenJohansen: {
    run: ({ days, cause }) => aalenJohansen({ time: days, cause }),
    aims: [45, 150, 200],
    slope: COUNTED,
  },
  aalenJohansenContinuous: {
    run: ({ continuous, cause }) => aalenJohansen({ time: continuous, cause }),
    aims: [10, 8, 6],
    slope: SORTED,
  },
  countsByGroup: {
    run: ({ group }) => groupSizes(codeGroups(group)),
    aims: [8, 5, 5],
    slope: COUNTED,
  },
  groupRateAndCurve: { run: groupRateAndCurve, aims: [20, 25, 25], slope: COUNTED },
  cox: { run: cox, aims: [13, 16, 11], slope: SORTED },
  coxFitAlone: { run: cox, aims: [2.2, 2.3, 1.5], slope: SORTED },
  coxRestarted: {
    run: (data) => {
      const { days, event, covariates } = data;
      const start = fitOf(data).coefficients.map(({ estimate }) => estimate);
      return coxRegression({ time: days, event, covariates, start });
    },
    aims: [30, 35, 25],
    slope: SORTED,
  },
  proportionalHazards: {
    run: (data) => proportionalHazardsTest(fitOf(data)),
    aims: [18, 22, 15],
    slope: SORTED,
  },
  logistic: {
    run: ({ outcome, covariates }) => logisticRegression({ outcome, covariates }),
    aims: [12, 15, 13],
    slope: SORTED,
  },
  fineGray: {
    run: ({ days, cause, covariates }) => fineGray({ time: days, cause, covariates }),
    aims: [100, 100, 100],
    slope: SORTED,
  },
  riskAdjustedCusum: {
    run: ({ outcome, risk }) =>
      riskAdjustedCusum({ failed: outcome, risk, oddsRatio: 2, limit: 4.5 }),
    aims: [80, 80, 80],
    slope: COUNTED,
  },
};

/** Of one group the rate with its interval, and the curve. */
function groupRateAndCurve({ group, days, event, outcome }: BenchmarkData): unknown {
  const rows = rowsByCode(codeGroups(group))[1]!;
  const failed = gatherWhole(outcome, rows).reduce((sum, value) => sum + value, 0);
  const curve = kaplanMeier({
    time: gatherWhole(days, rows),
    event: new Uint8Array(gatherWhole(event, rows)),
  });
  return { rate: wilsonInterval(failed, rows.length), curve };
}

/** Robust errors by patient (two eyes each): the fit and its errors, to be set beside the fit alone. */
export function coxWithClusters({ days, event, covariates, rows }: BenchmarkData): CoxFit {
  const cluster = Int32Array.from({ length: rows }, (_, i) => i >> 1);
  return coxRegression({ time: days, event, covariates, cluster });
}

/** Exact limits of 80 proportions, as of the surgeons of a region: at most half a millisecond. */
export function eightyExactLimits(): number {
  let sum = 0;
  for (let i = 0; i < 80; i++) sum += clopperPearsonInterval((i * 7) % 23, 40 + 5 * i)!.upper;
  return sum;
}
