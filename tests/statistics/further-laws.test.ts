/** What must hold whatever the data, for functions that have no such test beside their other ones. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bernoulliCusum } from "../../src/statistics/bernoulli-cusum.ts";
import {
  betaBinomialMoments,
  intraclassCorrelation,
} from "../../src/statistics/beta-binomial-moments.ts";
import { jackknife } from "../../src/statistics/bootstrap.ts";
import { breslowDay } from "../../src/statistics/breslow-day.ts";
import { chiSquareTest } from "../../src/statistics/chi-square-test.ts";
import { clusteredProportion } from "../../src/statistics/clustered-proportion.ts";
import { completenessIndex } from "../../src/statistics/completeness-index.ts";
import { coxSurvival } from "../../src/statistics/cox-baseline.ts";
import { coxFirth } from "../../src/statistics/cox-firth.ts";
import { coxRegression } from "../../src/statistics/cox-regression.ts";
import {
  devianceResiduals,
  martingaleResiduals,
  schoenfeldResiduals,
} from "../../src/statistics/cox-residuals.ts";
import { fisherExact, stratifiedExact } from "../../src/statistics/fisher-exact.ts";
import { fisherExactTable } from "../../src/statistics/fisher-table.ts";
import { ratioFunnelLimits } from "../../src/statistics/funnel-limits.ts";
import { hosmerLemeshow } from "../../src/statistics/hosmer-lemeshow.ts";
import { kaplanMeier } from "../../src/statistics/kaplan-meier.ts";
import { learningCurveCusum } from "../../src/statistics/learning-curve-cusum.ts";
import {
  logisticFirth,
  logisticFirthEstimates,
  logisticFirthTest,
} from "../../src/statistics/logistic-firth.ts";
import { logisticProfile } from "../../src/statistics/logistic-profile.ts";
import { logisticRegression } from "../../src/statistics/logistic-regression.ts";
import {
  mantelHaenszelDifference,
  mantelHaenszelOddsRatio,
  mantelHaenszelRiskRatio,
  mantelHaenszelTest,
} from "../../src/statistics/mantel-haenszel.ts";
import { mcNemarTest } from "../../src/statistics/mcnemar-test.ts";
import type { ComparisonEstimate } from "../../src/statistics/newcombe-difference.ts";
import { observedExpected } from "../../src/statistics/observed-expected.ts";
import { proportionalHazardsTest } from "../../src/statistics/proportional-hazards-test.ts";
import { standardisedRate } from "../../src/statistics/regression-standardisation.ts";
import { restrictedMean } from "../../src/statistics/restricted-mean.ts";
import { riskAdjustedCusum } from "../../src/statistics/risk-adjusted-cusum.ts";
import { type QuantileDefinition, sampleQuantile } from "../../src/statistics/sample-quantile.ts";
import { casesPerGroup } from "../../src/statistics/sample-size.ts";
import { survivalQuantile } from "../../src/statistics/survival-quantile.ts";
import type { Part, TwoByTwo } from "../../src/statistics/two-by-two.ts";
import { exactCasesPerGroup, twoGroupPower } from "../../src/statistics/two-group-power.ts";
import { expectClose } from "./close-to.ts";
import { evenly, partOf } from "./even-numbers.ts";
import { expectNear } from "./near.ts";
import { tables } from "./two-by-two-tables.ts";

const held = ({ failed, total }: Part): Part => ({ failed: total - failed, total });
const swapped = ({ first, second }: TwoByTwo): TwoByTwo => ({ first: second, second: first });
const recoded = ({ first, second }: TwoByTwo): TwoByTwo => ({
  first: held(first),
  second: held(second),
});
const bits = (from: number, to: number) => fc.array(fc.nat(1), { minLength: from, maxLength: to });

describe("tables", () => {
  const counts = fc
    .tuple(fc.integer({ min: 2, max: 3 }), fc.integer({ min: 2, max: 3 }))
    .chain(([rows, columns]) =>
      fc.array(fc.array(fc.nat(9), { minLength: columns, maxLength: columns }), {
        minLength: rows,
        maxLength: rows,
      }),
    );
  const transposed = (table: number[][]) => table[0]!.map((_, c) => table.map((row) => row[c]!));

  it("chi-square and Fisher's exact p do not know which way the table lies, nor its order", () => {
    fc.assert(
      fc.property(counts, (table) => {
        const plain = chiSquareTest(table);
        const turned = chiSquareTest(transposed(table.toReversed()));
        expectClose(turned.statistic, plain.statistic);
        expect(turned.degreesOfFreedom).toBe(plain.degreesOfFreedom);
        const twice = chiSquareTest(table.map((row) => row.map((n) => 2 * n)));
        expectClose(twice.statistic, 2 * plain.statistic);
        const exact = fisherExactTable(table)!;
        expectClose(fisherExactTable(transposed(table.toReversed()))!, exact, 1e-8);
        expect(exact > 0 && exact <= 1).toBe(true);
      }),
      { seed: 101, numRuns: 120 },
    );
  });

  it("Fisher's test turns over with the groups and with the outcome; mid-P is below p", () => {
    fc.assert(
      fc.property(tables, (table) => {
        const test = fisherExact(table);
        for (const other of [swapped(table), recoded(table)]) {
          const turned = fisherExact(other);
          expectClose(turned.pTwoSided, test.pTwoSided, 1e-8);
          expectClose([turned.pLess, turned.pGreater], [test.pGreater, test.pLess], 1e-8);
        }
        expect(test.midP).toBeLessThanOrEqual(test.pTwoSided + 1e-12);
        const alone = stratifiedExact([table]);
        expectClose([alone.pTwoSided, alone.midP], [test.pTwoSided, test.midP], 1e-8);
      }),
      { seed: 102, numRuns: 120 },
    );
  });

  it("McNemar's test does not know which eye is first", () => {
    fc.assert(
      fc.property(fc.nat(40), fc.nat(40), (a, b) => {
        expect(mcNemarTest(a, b)).toEqual(mcNemarTest(b, a));
        const { exactPValue, midP } = mcNemarTest(a, b);
        expect(midP).toBeLessThanOrEqual(exactPValue);
      }),
      { seed: 103, numRuns: 100 },
    );
  });

  it("across strata: order does not matter, exchanged groups invert and negate", () => {
    const list = fc.array(tables, { minLength: 1, maxLength: 4 });
    const limits = (part: ComparisonEstimate | null) => [part!.lower, part!.upper];
    fc.assert(
      fc.property(list, (strata) => {
        const turned = strata.toReversed().map(swapped);
        for (const estimate of [mantelHaenszelOddsRatio, mantelHaenszelRiskRatio]) {
          const one = estimate(strata);
          expect(estimate(turned) === null).toBe(one === null);
          if (one === null) continue;
          const [lower, upper] = limits(estimate(turned));
          expectClose([1 / upper!, 1 / lower!], limits(one), 1e-7);
        }
        const difference = mantelHaenszelDifference(strata);
        if (difference !== null) {
          const [lower, upper] = limits(mantelHaenszelDifference(turned));
          expectNear([-upper!, -lower!], limits(difference), 1e-9);
        }
        const { statistic } = mantelHaenszelTest(strata);
        expectNear(mantelHaenszelTest(turned.map(recoded)).statistic, statistic, 1e-8);
        const exact = stratifiedExact(strata);
        expectClose(stratifiedExact(turned).pTwoSided, exact.pTwoSided, 1e-7);
        const homogeneity = breslowDay(strata);
        if (homogeneity === null) return;
        expectNear(breslowDay(turned)!.statistic, homogeneity.statistic, 1e-6);
        expect(homogeneity.taroneStatistic).toBeLessThanOrEqual(homogeneity.statistic + 1e-9);
      }),
      { seed: 104, numRuns: 100 },
    );
  });

  it("strata that are all alike are homogeneous", () => {
    fc.assert(
      fc.property(tables, (table) => {
        const alike = breslowDay([table, table, table]);
        fc.pre(alike !== null);
        expectNear([alike!.statistic, alike!.taroneStatistic], [0, 0], 1e-8);
      }),
      { seed: 105, numRuns: 100 },
    );
  });
});

describe("eyes in patients", () => {
  it("the share mirrors with the outcome; every eye twice is the eye once", () => {
    const eyes = fc.array(fc.tuple(fc.nat(1), fc.nat(8)), { minLength: 2, maxLength: 40 });
    fc.assert(
      fc.property(eyes, (list) => {
        const failed = list.map(([y]) => y);
        const cluster = list.map(([, id]) => id);
        const share = clusteredProportion(failed, cluster)!;
        const other = clusteredProportion(
          failed.map((y) => 1 - y).toReversed(),
          cluster.toReversed(),
        )!;
        expectClose([1 - other.upper, 1 - other.lower], [share.lower, share.upper], 1e-8);
        expectNear(other.standardError, share.standardError, 1e-9);
        const twice = clusteredProportion([...failed, ...failed], [...cluster, ...cluster])!;
        expectClose([twice.lower, twice.upper], [share.lower, share.upper], 1e-8);
        expect(share.lower <= share.estimate && share.estimate <= share.upper).toBe(true);
      }),
      { seed: 106, numRuns: 120 },
    );
  });

  it("moments and analysis of variance mirror with the outcome, in any order of units", () => {
    const part = partOf(1, 40);
    fc.assert(
      fc.property(fc.array(part, { minLength: 2, maxLength: 10 }), (units) => {
        const turned = units.map(held).toReversed();
        const fit = betaBinomialMoments(units);
        const other = betaBinomialMoments(turned);
        expect(other === null).toBe(fit === null);
        if (fit !== null) {
          expectNear([other!.mean, other!.intraclass], [1 - fit.mean, fit.intraclass], 1e-9);
        }
        const correlation = intraclassCorrelation(units);
        if (correlation !== null) expectNear(intraclassCorrelation(turned)!, correlation, 1e-8);
      }),
      { seed: 107, numRuns: 120 },
    );
  });
});

describe("follow-up", () => {
  const rows = fc.array(fc.record({ time: fc.integer({ min: 1, max: 30 }), event: fc.nat(1) }), {
    minLength: 3,
    maxLength: 40,
  });
  const of = (list: readonly { time: number; event: number }[], unit = 1) => ({
    time: list.map((row) => row.time * unit),
    event: list.map((row) => row.event),
  });

  it("restricted means and quantiles are in the unit of time, whatever the order of rows", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const days = kaplanMeier(of(list));
        const weeks = kaplanMeier(of(list.toReversed(), 1 / 7));
        const mean = restrictedMean(days, 10);
        const inWeeks = restrictedMean(weeks, 10 / 7);
        expect(inWeeks === null).toBe(mean === null);
        if (mean !== null) {
          expectClose(
            [inWeeks!.estimate, inWeeks!.standardError, inWeeks!.lower],
            [mean.estimate / 7, mean.standardError / 7, mean.lower / 7],
            1e-8,
          );
          expect(mean.estimate).toBeLessThanOrEqual(10 + 1e-12);
        }
        for (const share of [0.25, 0.5]) {
          const quantile = survivalQuantile(days, share);
          const other = survivalQuantile(weeks, share);
          for (const part of ["estimate", "lower", "upper"] as const) {
            expectClose(other[part], quantile[part] === null ? null : quantile[part] / 7, 1e-8);
          }
        }
      }),
      { seed: 108, numRuns: 120 },
    );
  });

  it("completeness is a share, in any unit of time", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const { time, event } = of(list);
        const possible = time.map((t) => t + 3);
        const { index } = completenessIndex(time, event, possible)!;
        expect(index > 0 && index <= 1).toBe(true);
        const weeks = (values: number[]) => values.map((t) => t / 7);
        expectClose(completenessIndex(weeks(time), event, weeks(possible))!.index, index);
      }),
      { seed: 109, numRuns: 60 },
    );
  });
});

describe("models", () => {
  const data = fc.array(
    fc.record({ time: fc.nat(20), y: fc.nat(1), x: fc.integer({ min: -3, max: 3 }), z: fc.nat(1) }),
    { minLength: 25, maxLength: 50 },
  );
  type Row = { time: number; y: number; x: number; z: number };
  const survival = (list: readonly Row[], unit = 1) => ({
    time: list.map((row) => row.time * unit),
    event: list.map((row) => row.y),
  });
  const covariates = (list: readonly Row[]) => [list.map(({ x }) => x), list.map(({ z }) => z)];

  it("Cox: what is predicted and tested does not know how covariates and time are measured", () => {
    fc.assert(
      fc.property(data, (list) => {
        const fit = coxRegression({ ...survival(list), covariates: covariates(list) });
        fc.pre(fit.converged && fit.aliased.length === 0);
        const [x, z] = covariates(list);
        const other = coxRegression({
          ...survival(list.toReversed(), 1 / 7),
          covariates: [x!.map((v) => 5 - 2 * v).toReversed(), z!.toReversed()],
        });
        const [here, there] = [coxSurvival(fit, [1, 0])[0]!, coxSurvival(other, [3, 0])[0]!];
        expectClose(there.survival, here.survival, 1e-6);
        expectClose(there.standardError, here.standardError, 1e-5);
        for (const transform of ["Kaplan–Meier", "rank"] as const) {
          const test = proportionalHazardsTest(fit, transform);
          const turned = proportionalHazardsTest(other, transform);
          expectNear(turned.global.statistic, test.global.statistic, 1e-5);
        }
      }),
      { seed: 110, numRuns: 50 },
    );
  });

  it("Cox: Schoenfeld's residuals sum to 0, deviance residuals have the sign of martingale ones", () => {
    fc.assert(
      fc.property(data, (list) => {
        const fit = coxRegression({ ...survival(list), covariates: covariates(list) });
        fc.pre(fit.converged);
        for (const sums of schoenfeldResiduals(fit).sums) {
          expectNear(
            sums.reduce((a, b) => a + b, 0),
            0,
            1e-6,
          );
        }
        const martingale = martingaleResiduals(fit);
        devianceResiduals(fit).forEach((residual, row) => {
          expect(residual * martingale[row]!).toBeGreaterThanOrEqual(0);
          // the deviance is 0 to the second order only where the martingale residual is
          expect(Math.abs(residual) >= Math.abs(martingale[row]!)).toBe(
            martingale[row]! >= 0 || residual <= martingale[row]!,
          );
        });
      }),
      { seed: 111, numRuns: 50 },
    );
  });

  it("Firth's Cox: recoding a covariate changes its sign, the order of rows nothing", () => {
    fc.assert(
      fc.property(data, (list) => {
        fc.pre(list.some(({ y }) => y === 1));
        const input = { ...survival(list), covariates: covariates(list).slice(0, 1) };
        const plain = coxRegression(input);
        fc.pre(plain.aliased.length === 0);
        const fit = coxFirth(input).coefficients[0]!;
        const other = coxFirth({
          ...survival(list.toReversed(), 3),
          covariates: input.covariates.map((x) => x.map((v) => 4 - v).toReversed()),
        }).coefficients[0]!;
        expectNear(
          [other.estimate, other.lower, other.upper, other.chiSquare],
          [-fit.estimate, -fit.upper, -fit.lower, fit.chiSquare],
          1e-5,
        );
      }),
      { seed: 112, numRuns: 25 },
    );
  });

  it("Firth's and profile limits in logistic regression mirror with the outcome", () => {
    fc.assert(
      fc.property(data, (list) => {
        const outcome = list.map(({ y }) => y);
        const input = { outcome, covariates: covariates(list) };
        const plain = logisticRegression(input);
        fc.pre(plain.converged && plain.aliased.length === 0);
        const mirrored = { ...input, outcome: outcome.map((y) => 1 - y) };
        const fit = logisticFirth(input);
        const other = logisticFirth(mirrored);
        fit.coefficients.forEach(({ estimate, lower, upper }, j) => {
          const turned = other.coefficients[j]!;
          expectNear(
            [-turned.upper, -turned.estimate, -turned.lower],
            [lower, estimate, upper],
            1e-5,
          );
          expectNear(logisticFirthEstimates(input).estimates[j]!, estimate, 1e-8);
        });
        expectNear(logisticFirthTest(mirrored).statistic, fit.likelihoodRatio.statistic, 1e-7);
        const profile = logisticProfile(mirrored);
        logisticProfile(input).forEach(({ lower, upper }, j) => {
          expectClose([-profile[j]!.upper, -profile[j]!.lower], [lower, upper], 1e-5);
        });
      }),
      { seed: 113, numRuns: 25 },
    );
  });

  it("a standardised rate lies among the predicted ones, and mirrors with the outcome", () => {
    fc.assert(
      fc.property(data, (list) => {
        const outcome = list.map(({ y }) => y);
        const input = { outcome, covariates: covariates(list) };
        const fit = logisticRegression(input);
        fc.pre(fit.converged && fit.aliased.length === 0);
        const scenario = [input.covariates[0]!, outcome.map(() => 1)];
        const rate = standardisedRate(fit, scenario);
        expect(rate.lower < rate.rate && rate.rate < rate.upper).toBe(true);
        const mirrored = logisticRegression({ ...input, outcome: outcome.map((y) => 1 - y) });
        const other = standardisedRate(mirrored, scenario);
        expectNear([1 - other.upper, 1 - other.rate], [rate.lower, rate.rate], 1e-6);
      }),
      { seed: 114, numRuns: 40 },
    );
  });

  it("the Hosmer–Lemeshow groups do not know the order of rows", () => {
    const predictions = fc.array(fc.tuple(fc.nat(1), fc.nat(20)), { minLength: 4, maxLength: 60 });
    fc.assert(
      fc.property(predictions, (list) => {
        const outcome = list.map(([y]) => y);
        const probability = list.map(([, p]) => (p + 1) / 22);
        const test = hosmerLemeshow(outcome, probability, { groups: 4 })!;
        const turned = hosmerLemeshow(outcome.toReversed(), probability.toReversed(), {
          groups: 4,
        })!;
        expectClose(turned.statistic, test.statistic, 1e-8);
        const total = test.groups.reduce((sum, group) => sum + group.total, 0);
        expect(total).toBe(list.length);
      }),
      { seed: 115, numRuns: 100 },
    );
  });
});

describe("series, counts and samples", () => {
  it("one risk for all is the Bernoulli chart; learning is the chart for a better rate", () => {
    fc.assert(
      fc.property(bits(0, 60), (failed) => {
        const plain = bernoulliCusum(failed, { expected: 0.1, watched: 2 / 11, limit: 3 });
        const adjusted = riskAdjustedCusum({
          ...{ failed, risk: failed.map(() => 0.1), oddsRatio: 2, limit: 3 },
        });
        expectNear(plain.values, adjusted.values, 1e-12);
        expect(plain.signals).toEqual(adjusted.signals);
        const learning = learningCurveCusum(failed, {
          ...{ acceptable: 0.1, unacceptable: 0.2, limit: Number.MAX_VALUE },
        });
        const better = bernoulliCusum(failed, { expected: 0.2, watched: 0.1, limit: Infinity });
        expectNear(learning.values, better.values.map(Math.abs), 1e-12);
      }),
      { seed: 116, numRuns: 80 },
    );
  });

  it("observed over expected: limits hold the ratio and halve when twice as much was expected", () => {
    const expected = evenly(0.1, 200);
    fc.assert(
      fc.property(fc.nat(300), expected, (observed, e) => {
        const one = observedExpected(observed, e)!;
        const half = observedExpected(observed, 2 * e)!;
        expectClose([half.lower, half.upper], [one.lower / 2, one.upper / 2]);
        expect(one.lower <= one.ratio && one.ratio <= one.upper).toBe(true);
        expect(one.pTwoSided >= 0 && one.pTwoSided <= 1).toBe(true);
      }),
      { seed: 117, numRuns: 100 },
    );
  });

  it("ratio funnels nest by level and narrow as more is expected", () => {
    const expected = evenly(0.5, 500);
    fc.assert(
      fc.property(expected, (e) => {
        const narrow = ratioFunnelLimits(e)!;
        const wide = ratioFunnelLimits(e, 0.998)!;
        expect(wide.lower <= narrow.lower && narrow.upper <= wide.upper).toBe(true);
        const more = ratioFunnelLimits(9 * e)!;
        expect(more.lower >= narrow.lower && more.upper <= narrow.upper).toBe(true);
      }),
      { seed: 118, numRuns: 100 },
    );
  });

  it("left out in turn, means have the mean of all, and the jackknife its error", () => {
    const sample = fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 2, maxLength: 30 });
    fc.assert(
      fc.property(sample, (values) => {
        const mean = (list: ArrayLike<number>) =>
          Array.from(list).reduce((a, b) => a + b, 0) / list.length;
        const left = jackknife({
          rows: values.length,
          statistic: (rows) => mean(rows.map((row) => values[row]!)),
        })!;
        expectNear(mean(left), mean(values), 1e-9);
        const n = values.length;
        const spread = (list: ArrayLike<number>) =>
          Array.from(list).reduce((sum, v) => sum + (v - mean(list)) ** 2, 0);
        expectNear(((n - 1) / n) * spread(left), spread(values) / n / (n - 1), 1e-8);
      }),
      { seed: 119, numRuns: 80 },
    );
  });

  it("sample quantiles mirror, lie within the sample and know no order", () => {
    const sample = fc.array(fc.integer({ min: -99, max: 99 }), { minLength: 1, maxLength: 30 });
    const definition = fc.constantFrom<QuantileDefinition>(5, 6, 7, 8, 9);
    const share = fc.integer({ min: 0, max: 20 }).map((k) => k / 20);
    fc.assert(
      fc.property(sample, share, definition, (values, p, kind) => {
        const quantile = sampleQuantile(values, p, kind)!;
        const mirrored = sampleQuantile(
          values.toReversed().map((v) => -v),
          1 - p,
          kind,
        )!;
        expectNear(mirrored, -quantile, 1e-9);
        expect(quantile >= Math.min(...values) && quantile <= Math.max(...values)).toBe(true);
      }),
      { seed: 120, numRuns: 150 },
    );
  });

  it("eyes per group do not depend on which rate is first; the exact number is where power begins", () => {
    const rates = fc
      .tuple(fc.integer({ min: 2, max: 40 }), fc.integer({ min: 2, max: 40 }))
      .filter(([a, b]) => Math.abs(a - b) > 12)
      .map(([a, b]) => [a / 100, b / 100] as const);
    fc.assert(
      fc.property(rates, ([one, two]) => {
        expect(casesPerGroup({ target: one, other: two })).toEqual(
          casesPerGroup({ target: two, other: one }),
        );
        const total = exactCasesPerGroup({ rates: [one, two] })!;
        expect(exactCasesPerGroup({ rates: [two, one] })).toBe(total);
        const power = (n: number) =>
          twoGroupPower({ first: { rate: one, total: n }, second: { rate: two, total: n } });
        expect(power(total)).toBeGreaterThanOrEqual(0.8);
        expect(power(total - 1)).toBeLessThan(0.8);
      }),
      { seed: 121, numRuns: 12 },
    );
  });
});
