/**
 * The seventh table of real coverage and size: ten people, or ten departments, who share the eyes by
 * tenths, with the same true rate and with true rates from a beta distribution (intraclass correlation
 * 0.02). A share is of people and series; ranks, which take long, are of every fifth series. Expected
 * failures are those of one person with all the eyes of the cell, by a model of three times as many eyes of
 * others with one covariate (odds ratio 2 a standard deviation), by the rule of the question: by maximum
 * likelihood from ten failures a column, else by Firth's penalty with its intercept refitted; no expectation
 * under five failures of others.
 */
import { exactRatio } from "../../../src/questions/people/exact-ratio.ts";
import { fitBetaBinomial } from "../../../src/statistics/beta-binomial.ts";
import { chiSquareTest } from "../../../src/statistics/chi-square-test.ts";
import { betaQuantile } from "../../../src/statistics/distributions.ts";
import { funnelPosition } from "../../../src/statistics/funnel-limits.ts";
import { logisticFirthEstimates } from "../../../src/statistics/logistic-firth.ts";
import { logisticRegression } from "../../../src/statistics/logistic-regression.ts";
import {
  overdispersion,
  proportionErrors,
  widenedFunnelLimits,
} from "../../../src/statistics/overdispersion.ts";
import { rankUncertainty } from "../../../src/statistics/rank-uncertainty.ts";
import { type RandomSource, seededRandom } from "../../../src/statistics/seeded-random.ts";
import { rateBelief, shrunkenRates } from "../../../src/statistics/shrunken-rates.ts";
import type { Part } from "../../../src/statistics/two-by-two.ts";
import { wilsonInterval } from "../../../src/statistics/wilson-interval.ts";
import { eyeCounts, failureRates } from "./coverage-cells.ts";
import type { CoverageTable } from "./coverage-table.ts";
import { failuresOf } from "./curve-cells.ts";
import { drawnOutcomes, riskAt } from "./drawn-outcomes.ts";
import { holds, rejects, sharesOver, type Told } from "./shares-of-series.ts";

const settings = { seed: 20_260_606, replicates: 1000, level: 0.95, units: 10, intraclass: 0.02 };

export const unitTable: CoverageTable = {
  name: "unit-coverage",
  settings,
  about: [
    "# Real coverage of 95% intervals over people and departments, and real size of 5% tests, in percent",
    "",
    "What is drawn is in `unit-cells.ts`. All simulated:",
    `${settings.replicates} series a cell, seed ${settings.seed}, error about 0.7. Shares are of the series in`,
    "which the interval or the test exists. From the test of equal rates on the numbers are sizes of tests;",
    "of widened limits, how often a unit lies outside where all differ by chance and by their own rates.",
  ],
  places: ["rate", "eyes"],
  at: failureRates.flatMap((rate) => eyeCounts.map((eyes) => ({ rate, eyes }))),
  columns: {
    shrunken: "shrunken rate",
    ownWilson: "(own rate, Wilson)",
    shrunkenEqual: "shrunken rate, no differences",
    rank: "rank",
    pooledEqual: "pooled rate, Wilson",
    pooledApart: "pooled rate, departments differ",
    expectedByModel: "observed/expected by a model of others",
    equalRates: "beta-binomial against binomial",
    departmentsEqual: "chi-square of departments",
    dispersion: "over-dispersion",
    widenedOutside: "outside widened limits",
  },
  cell: ({ rate = 0, eyes = 0 }) => {
    const random = seededRandom(settings.seed + eyes * 1000 + Math.round(rate * 1000));
    const asked = { eyes, rate, random };
    let series = 0;
    return sharesOver(settings.replicates, () => ({
      ...ofUnitsThatDiffer(asked, series++ % 5 === 0),
      ...ofEqualUnits(asked),
      expectedByModel: ofOthers(asked),
    }));
  },
};

interface Asked {
  readonly eyes: number;
  readonly rate: number;
  readonly random: RandomSource;
}

function drawnUnits({ eyes, random }: Asked, rates: readonly number[]): Part[] {
  const total = Math.floor(eyes / settings.units);
  return rates.map((rate) => ({ failed: failuresOf(total, rate, random), total }));
}

function ofUnitsThatDiffer(asked: Asked, withRanks: boolean): Told {
  const { rate, random } = asked;
  const size = 1 / settings.intraclass - 1;
  const rates = Array.from({ length: settings.units }, () =>
    betaQuantile(random.uniform(), rate * size, (1 - rate) * size),
  );
  const units = drawnUnits(asked, rates);
  const model = fitBetaBinomial(units);
  const all = together(units);
  const own = shareTrue(
    units.map((unit, i) => holds(wilsonInterval(unit.failed, unit.total), rates[i]!)),
  );
  return {
    ownWilson: own,
    shrunken:
      model === null
        ? null
        : shareTrue(shrunkenRates(units, model).map(({ limits }, i) => holds(limits, rates[i]!))),
    rank:
      !withRanks || model === null || model.intraclass === 0
        ? null
        : ranksHold(units, rates, model),
    pooledApart: holds(wilsonInterval(all.failed, all.total), rate),
    widenedOutside: widenedOutside(units, rate),
  };
}

/** The share of those told that is so; null where none is. */
function shareTrue(told: readonly (boolean | null)[]): number | null {
  const known = told.filter((is) => is !== null);
  return known.length === 0 ? null : known.filter(Boolean).length / known.length;
}

function ranksHold(
  units: readonly Part[],
  rates: readonly number[],
  model: Parameters<typeof rateBelief>[1],
): number | null {
  const ranks = rankUncertainty(units.map((unit) => rateBelief(unit, model)));
  return shareTrue(
    ranks.map(({ lowerRank, upperRank }, i) => {
      const rank = 1 + rates.filter((rate) => rate < rates[i]!).length;
      return lowerRank <= rank && rank <= upperRank;
    }),
  );
}

function together(units: readonly Part[]): Part {
  const sum = (name: keyof Part) => units.reduce((all, unit) => all + unit[name], 0);
  return { failed: sum("failed"), total: sum("total") };
}

function dispersionOf(units: readonly Part[], target: number) {
  const standardErrors = proportionErrors(
    target,
    units.map(({ total }) => total),
  );
  const values = units.map(({ failed, total }) => failed / total);
  return overdispersion({ values, standardErrors, target }, { isEstimated: true });
}

function widenedOutside(units: readonly Part[], rate: number): number | null {
  const all = together(units);
  if (all.failed === 0 || all.failed === all.total) return null;
  const dispersion = dispersionOf(units, all.failed / all.total);
  if (dispersion === null) return null;
  const total = units[0]!.total;
  const limits = widenedFunnelLimits({
    target: rate,
    standardError: proportionErrors(rate, [total])[0]!,
    by: { tauSquared: dispersion.tauSquared },
    most: 1,
  });
  return shareTrue(units.map(({ failed }) => funnelPosition(failed / total, limits) !== "inside"));
}

function ofEqualUnits(asked: Asked): Told {
  const { rate } = asked;
  const units = drawnUnits(asked, new Array<number>(settings.units).fill(rate));
  const all = together(units);
  const pooledEqual = holds(wilsonInterval(all.failed, all.total), rate);
  if (all.failed === 0 || all.failed === all.total) {
    return {
      pooledEqual,
      ...{ shrunkenEqual: null, equalRates: null, departmentsEqual: null, dispersion: null },
    };
  }
  const model = fitBetaBinomial(units);
  return {
    pooledEqual,
    shrunkenEqual:
      model === null
        ? null
        : shareTrue(shrunkenRates(units, model).map(({ limits }) => holds(limits, rate))),
    equalRates: rejects(model?.pValue),
    departmentsEqual: rejects(
      chiSquareTest(units.map(({ failed, total }) => [failed, total - failed])).pValue,
    ),
    dispersion: rejects(dispersionOf(units, all.failed / all.total)?.pValue),
  };
}

/** Others' eyes, then the person's own, from the same population. */
function ofOthers({ eyes, rate, random }: Asked): boolean | null {
  const others = drawnOutcomes({ eyes: 3 * eyes, rate, random });
  const own = drawnOutcomes({ eyes, rate, random });
  const failures = others.outcome.reduce((sum, y) => sum + y, 0);
  const rarer = Math.min(failures, 3 * eyes - failures);
  if (rarer < 5) return null;
  const model = fittedOthers(others, rarer);
  const risks = Array.from(own.x, (value) =>
    Math.min(1 - 1e-9, Math.max(1e-9, riskAt(model.intercept + model.slope * value))),
  );
  const observed = own.outcome.reduce((sum, y) => sum + y, 0);
  return holds(exactRatio(observed, risks), 1);
}

function fittedOthers({ outcome, x }: { outcome: Uint8Array; x: Float64Array }, rarer: number) {
  const plain = logisticRegression({ outcome, covariates: [x] });
  if (rarer >= 10 && plain.converged && plain.infinite.length === 0) {
    const [intercept, slope] = plain.coefficients;
    return { intercept: intercept!.estimate, slope: slope!.estimate };
  }
  const [, slope = 0] = logisticFirthEstimates({ outcome, covariates: [x] }).estimates;
  const offset = x.map((value) => slope * value);
  const [refitted] = logisticRegression({ outcome, covariates: [], offset }).coefficients;
  return { intercept: refitted!.estimate, slope };
}
