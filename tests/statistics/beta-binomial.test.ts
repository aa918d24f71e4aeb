import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fitBetaBinomial, modelOf } from "../../src/statistics/beta-binomial.ts";
import {
  betaBinomialMoments,
  intraclassCorrelation,
} from "../../src/statistics/beta-binomial-moments.ts";
import { betaLowerTail } from "../../src/statistics/distributions.ts";
import { rankUncertainty } from "../../src/statistics/rank-uncertainty.ts";
import { rateBelief, shrunkenRates } from "../../src/statistics/shrunken-rates.ts";
import type { Part } from "../../src/statistics/two-by-two.ts";
import { expectClose, expectPrinted } from "./close-to.ts";
import { evenly, partOf } from "./even-numbers.ts";
import { expectNear } from "./near.ts";
import { readNumbers, readReference } from "./reference-data.ts";

const reference = readReference("beta-binomial");
const partsOf = (failed: readonly number[], total: readonly number[]): Part[] =>
  failed.map((x, i) => ({ failed: x, total: total[i]! }));
const surgical = readNumbers("surgical12.csv");
const hospitals = partsOf(surgical.deaths!, surgical.n!);
const rats = readNumbers("rat_tumours.csv");
const experiments = partsOf(rats.tumours!, rats.n!);

const units = fc.array(partOf(0, 60), { minLength: 2, maxLength: 12 });

describe("the beta-binomial model by likelihood", () => {
  it("agrees with R: twelve hospitals, and 70 and 71 groups of rats", () => {
    const cases = [
      [hospitals, reference.surgical],
      [experiments.slice(0, 70), reference.rats70],
      [experiments, reference.rats71],
    ] as const;
    for (const [data, expected] of cases) {
      const fit = fitBetaBinomial(data)!;
      expectClose([fit.mean, fit.intraclass], [expected.mean, expected.intraclass], 1e-7);
      expectClose([fit.alpha, fit.beta], [expected.alpha, expected.beta], 1e-7);
      expectClose(
        [fit.logLikelihood, fit.binomialLogLikelihood],
        [expected.logLik, expected.binomial],
      );
      expectClose(fit.pValue, expected.pValue, 1e-7);
    }
  });

  it("takes the higher of two tops: R 4.2.2, optimize over the mean within optimize over ln theta", () => {
    // a large unit that hardly fails, a unit of one eye that failed: the likelihood falls from theta 0 at first
    const fit = fitBetaBinomial(partsOf([0, 0, 0, 1, 1, 0], [2, 2, 1, 1, 110, 0]))!;
    expectClose(fit.logLikelihood, -5.119135116189589);
    expectClose([fit.intraclass, fit.mean], [0.296098520319817, 0.132466283138867], 1e-6);
    expectClose(fit.binomialLogLikelihood, -5.40306432445921, 1e-8);
  });

  it("by hand: 0 of 2, 1 of 2 and 2 of 2 are as frequent as at theta 1/2", () => {
    // mean 1/2: P(1 of 2) = (1/2) / (1 + theta) = 1/3
    const fit = fitBetaBinomial(partsOf([0, 1, 2], [2, 2, 2]))!;
    expectClose([fit.mean, fit.intraclass, fit.alpha, fit.beta], [1 / 2, 1 / 3, 1, 1], 1e-8);
    expectClose(fit.logLikelihood, 3 * Math.log(1 / 3));
  });

  it("is binomial where units differ no more than by chance", () => {
    const fit = fitBetaBinomial(partsOf([5, 5, 5], [50, 50, 50]))!;
    expect(fit).toMatchObject({ mean: 0.1, intraclass: 0, alpha: Infinity, pValue: 1 });
    expect(fit.logLikelihood).toBe(fit.binomialLogLikelihood);
    expect(fitBetaBinomial([{ failed: 3, total: 9 }])!.intraclass).toBe(0);
    expect(fitBetaBinomial(partsOf([1, 0, 0], [1, 1, 1]))!.intraclass).toBe(0);
  });

  it("is not estimable for nobody, none, all, or all-or-nothing units", () => {
    expect(fitBetaBinomial([])).toBeNull();
    expect(fitBetaBinomial(partsOf([0, 0], [4, 9]))).toBeNull();
    expect(fitBetaBinomial(partsOf([4, 9], [4, 9]))).toBeNull();
    expect(fitBetaBinomial(partsOf([5, 0, 5], [5, 5, 5]))).toBeNull();
    expect(() => fitBetaBinomial(partsOf([5], [4]))).toThrow(/failed is 5 of a total of 4/);
  });

  it("is no worse than the binomial or the moments, and turns over with the outcome", () => {
    fc.assert(
      fc.property(units, (parts) => {
        const fit = fitBetaBinomial(parts);
        fc.pre(fit !== null);
        expect(fit.logLikelihood).toBeGreaterThanOrEqual(fit.binomialLogLikelihood - 1e-9);
        const held = parts.map(({ failed, total }) => ({ failed: total - failed, total }));
        const turned = fitBetaBinomial(held.toReversed())!;
        expectClose(turned.intraclass, fit.intraclass, 1e-5);
        expectClose(turned.mean, 1 - fit.mean, 1e-6);
        expectClose(turned.logLikelihood, fit.logLikelihood, 1e-8);
      }),
      { seed: 41, numRuns: 60 },
    );
  });
});

describe("the beta-binomial model by moments", () => {
  it("agrees with the formula in R, and the analysis of variance with R's aov", () => {
    expectClose(betaBinomialMoments(hospitals)!.intraclass, reference.moments.surgical);
    expectClose(betaBinomialMoments(experiments)!.intraclass, reference.moments.rats);
    expectClose(intraclassCorrelation(hospitals)!, reference.anova.surgical);
    expectClose(intraclassCorrelation(experiments)!, reference.anova.rats);
    const eyes = readNumbers("retinopathy.csv");
    const byPatient = new Map<number, number>();
    for (const [i, id] of eyes.id!.entries()) {
      byPatient.set(id, (byPatient.get(id) ?? 0) + eyes.status![i]!);
    }
    const pairs = [...byPatient.values()].map((failed) => ({ failed, total: 2 }));
    expectClose(intraclassCorrelation(pairs)!, reference.anova.eyes);
  });

  it("by hand: two units of 2, none and all failed", () => {
    const parts = partsOf([0, 2], [2, 2]);
    // S / pq = (2 / 4 + 2 / 4) / (1 / 4) = 4; (4 - 1) / (4 - 2 - 1) = 3, beyond 1
    expect(betaBinomialMoments(parts)).toBeNull();
    expect(intraclassCorrelation(parts)).toBe(1);
    // 1 of 2 each: nothing between, MSW = 1/2, (0 - 1/2) / (0 + 1/2)
    expectClose(intraclassCorrelation(partsOf([1, 1], [2, 2]))!, -1);
    expect(betaBinomialMoments(partsOf([1, 1], [2, 2]))!.intraclass).toBe(0);
  });

  it("is not estimable without spread, and passes over empty units", () => {
    for (const estimate of [betaBinomialMoments, intraclassCorrelation]) {
      expect(estimate([])).toBeNull();
      expect(estimate(partsOf([2], [5]))).toBeNull();
      expect(estimate(partsOf([0, 0], [5, 5]))).toBeNull();
      expect(estimate(partsOf([5, 5], [5, 5]))).toBeNull();
      expect(estimate(partsOf([1, 0], [1, 1]))).toBeNull();
      expect(estimate([...hospitals, { failed: 0, total: 0 }])).toEqual(estimate(hospitals));
    }
  });
});

describe("shrunken rates", () => {
  it("of the twelve hospitals agree with R, and change their order", () => {
    const rates = shrunkenRates(hospitals, fitBetaBinomial(hospitals)!);
    const { mean, lower, upper } = reference.shrunken;
    expectClose(
      rates.map((rate) => rate.shrunken),
      mean,
      1e-7,
    );
    expectClose(
      rates.map((rate) => rate.limits!.lower),
      lower,
      1e-6,
    );
    expectClose(
      rates.map((rate) => rate.limits!.upper),
      upper,
      1e-6,
    );
    // 0 of 47 against 8 of 211
    expect(rates[0]!.raw!).toBeLessThan(rates[4]!.raw!);
    expect(rates[0]!.shrunken).toBeGreaterThan(rates[4]!.shrunken);
  });

  it("by hand: 4 of 14 under shapes 1.4 and 8.6 is 5.4 / 24 (Gelman et al., table 5.1)", () => {
    const model = modelOf(0.14, 0.1);
    const [rate] = shrunkenRates([{ failed: 4, total: 14 }], model);
    expectClose([rate!.shrunken, rate!.ownWeight], [5.4 / 24, 14 / 24]);
    expectPrinted(rate!.limits!.lower, "0.0853961770");
    expectPrinted(rate!.limits!.upper, "0.4077898662");
  });

  it("lie between a unit's own rate and the mean; a unit without eyes has the mean", () => {
    fc.assert(
      fc.property(units, evenly(0.01, 5), (parts, theta) => {
        const model = modelOf(0.2, theta);
        for (const { raw, shrunken, limits, ownWeight } of shrunkenRates(parts, model)) {
          const own = raw ?? model.mean;
          expectNear(shrunken, ownWeight * own + (1 - ownWeight) * model.mean, 1e-12);
          expect(limits!.lower < limits!.upper).toBe(true);
        }
      }),
      { seed: 42, numRuns: 60 },
    );
    const none = shrunkenRates([{ failed: 0, total: 0 }], modelOf(0.2, 0.1));
    expect(none[0]).toMatchObject({ raw: null, ownWeight: 0 });
    expectClose(none[0]!.shrunken, 0.2);
    const alike = shrunkenRates(partsOf([3], [10]), modelOf(0.2, 0));
    expect(alike[0]).toEqual({ raw: 0.3, shrunken: 0.2, limits: null, ownWeight: 0 });
  });
});

describe("the uncertainty of ranks", () => {
  it("of the twelve hospitals agrees with R's integrate()", () => {
    const model = fitBetaBinomial(hospitals)!;
    const beliefs = hospitals.map((unit) => rateBelief(unit, model));
    rankUncertainty(beliefs).forEach((unit, i) => {
      const expected: number[] = reference.ranks[i];
      expectNear(unit.probabilities, expected, 1e-8);
      expectNear(
        unit.worstQuarter,
        expected.slice(9).reduce((a, b) => a + b, 0),
        1e-8,
      );
    });
  });

  it("by hand: a uniform rate exceeds one with density 2t with probability 1/3", () => {
    const ranks = rankUncertainty([
      { alpha: 1, beta: 1 },
      { alpha: 2, beta: 1 },
    ]);
    expectNear(ranks[0]!.probabilities, [2 / 3, 1 / 3], 1e-10);
    expectNear(ranks[1]!.expectedRank, 1 + 2 / 3, 1e-10);
    expectNear(ranks[1]!.worstQuarter, 2 / 3, 1e-10);
    expect(ranks[1]).toMatchObject({ lowerRank: 1, upperRank: 2 });
  });

  it("are certain far apart and equal for equals; one unit is first, none give none", () => {
    const sure = rankUncertainty([
      { alpha: 20, beta: 980 },
      { alpha: 500, beta: 500 },
    ]);
    expectNear(sure[0]!.probabilities, [1, 0], 1e-12);
    expect([sure[0]!.lowerRank, sure[0]!.upperRank]).toEqual([1, 1]);
    const alike = rankUncertainty(new Array(5).fill({ alpha: 0.3, beta: 7 }));
    for (const unit of alike) expectNear(unit.probabilities, new Array(5).fill(0.2), 1e-9);
    expect(rankUncertainty([{ alpha: 2, beta: 9 }])[0]).toMatchObject({
      expectedRank: 1,
      worstQuarter: 1,
    });
    expect(rankUncertainty([])).toEqual([]);
    expect(() => rankUncertainty([{ alpha: 0, beta: 2 }])).toThrow(/shapes are 0 and 2/);
  });

  it("sum to one over units and over ranks, and mirror when failures become successes", () => {
    const shape = evenly(0.2, 80);
    const belief = fc.record({ alpha: shape, beta: shape });
    fc.assert(
      fc.property(fc.array(belief, { minLength: 2, maxLength: 8 }), (beliefs) => {
        const ranks = rankUncertainty(beliefs);
        beliefs.forEach((_, k) => {
          expectNear(
            ranks.reduce((sum, unit) => sum + unit.probabilities[k]!, 0),
            1,
            1e-8,
          );
        });
        const turned = rankUncertainty(
          beliefs.map(({ alpha, beta }) => ({ alpha: beta, beta: alpha })),
        );
        turned.forEach((unit, i) => {
          expectNear(unit.probabilities.toReversed(), ranks[i]!.probabilities, 1e-8);
        });
      }),
      { seed: 43, numRuns: 25 },
    );
  });

  it("have the pairwise probability of a plain numerical integral", () => {
    const one = { alpha: 3, beta: 20 };
    const two = { alpha: 6, beta: 25 };
    const cells = 20_000;
    let above = 0;
    for (let i = 0; i < cells; i++) {
      const from = i / cells;
      const mass =
        betaLowerTail(from + 1 / cells, one.alpha, one.beta) -
        betaLowerTail(from, one.alpha, one.beta);
      above += mass * betaLowerTail(from + 0.5 / cells, two.alpha, two.beta);
    }
    expectNear(rankUncertainty([one, two])[0]!.probabilities[1]!, above, 1e-7);
  });
});
