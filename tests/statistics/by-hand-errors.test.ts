/** Errors and limits on paper, where the estimate alone would be right by a wrong formula. */
import { describe, expect, it } from "vitest";
import { fitBetaBinomial } from "../../src/statistics/beta-binomial.ts";
import { betaBinomialMoments } from "../../src/statistics/beta-binomial-moments.ts";
import { breslowDay } from "../../src/statistics/breslow-day.ts";
import { calibration } from "../../src/statistics/calibration.ts";
import { kaplanMeier } from "../../src/statistics/kaplan-meier.ts";
import { logisticRegression } from "../../src/statistics/logistic-regression.ts";
import {
  mantelHaenszelDifference,
  mantelHaenszelOddsRatio,
  mantelHaenszelRiskRatio,
} from "../../src/statistics/mantel-haenszel.ts";
import { rateRatio } from "../../src/statistics/rate-ratio.ts";
import {
  standardisedDifference,
  standardisedRate,
} from "../../src/statistics/regression-standardisation.ts";
import { survivalDifferenceAt, survivalTestAt } from "../../src/statistics/survival-difference.ts";
import { medianSurvival, survivalQuantile } from "../../src/statistics/survival-quantile.ts";
import { expectClose } from "./close-to.ts";
import { tableOf } from "./two-by-two-tables.ts";

const Z = 1.959963984540054;

describe("strata of unequal size: 4 of 10 against 2 of 10, and 1 of 2 against 1 of 4", () => {
  const strata = [tableOf([4, 10, 2, 10]), tableOf([1, 2, 1, 4])];

  it("have a risk ratio of 2 with variance (1.1 + 10/36) / (8/3 4/3) (Greenland and Robins 1985)", () => {
    const { estimate, logStandardError } = mantelHaenszelRiskRatio(strata)!;
    expectClose([estimate, logStandardError ** 2], [2, (1.1 + 10 / 36) / ((8 / 3) * (4 / 3))]);
  });

  it("have a risk difference of 4/19 with variance (-4/19 11/18 + 43/30) / (19/3)^2 (Sato 1989)", () => {
    const { estimate, lower, upper } = mantelHaenszelDifference(strata)!;
    const variance = (-(4 / 19) * (11 / 18) + 43 / 30) / (19 / 3) ** 2;
    expectClose([estimate, (upper - lower) / (2 * Z)], [4 / 19, Math.sqrt(variance)]);
  });

  it("have an odds ratio of 2.1 / (23/30), its variance in three parts (Robins and others 1986)", () => {
    const { estimate, logStandardError } = mantelHaenszelOddsRatio(strata)!;
    const [r, s] = [2.1, 0.6 + 1 / 6];
    const agreeing = 0.6 * 1.6 + (2 / 3) * 0.5;
    const mixed = 0.6 * 0.6 + 0.4 * 1.6 + (2 / 3) * (1 / 6) + (1 / 3) * 0.5;
    const opposed = 0.4 * 0.6 + (1 / 3) * (1 / 6);
    const variance = agreeing / (2 * r * r) + mixed / (2 * r * s) + opposed / (2 * s * s);
    expectClose([estimate, logStandardError ** 2], [r / s, variance]);
  });
});

describe("homogeneity", () => {
  it("of five strata of 6 against 6 whose common odds ratio is 4: 24, of which Tarone takes 6/5", () => {
    // 4 of 6 fitted in each, with variance 1 / (1/4 + 1/2 + 1/2 + 1/4); 6, 5, 5, 5 and 1 failed
    const strata = [6, 5, 5, 5, 1].map((failed) => tableOf([failed, 6, 6 - failed, 6]));
    expectClose(mantelHaenszelOddsRatio(strata)!.estimate, 4);
    const { statistic, taroneStatistic, degreesOfFreedom } = breslowDay(strata)!;
    expectClose([statistic, taroneStatistic], [24, 24 - 6 / 5]);
    expect(degreesOfFreedom).toBe(4);
  });
});

describe("moments", () => {
  it("of 0, 2, 2 and 4 of four: a correlation of (8 - 3) / 9", () => {
    const units = [0, 2, 2, 4].map((failed) => ({ failed, total: 4 }));
    const { mean, intraclass, alpha, beta } = betaBinomialMoments(units)!;
    expectClose([mean, intraclass, alpha, beta], [1 / 2, 5 / 9, 2 / 5, 2 / 5]);
  });
});

describe("units that differ", () => {
  it("0, 1 and 2 of 2: likelihoods 1/27 and 1/32, and P(Z > sqrt(2 ln(32/27))) is 0.27997", () => {
    const { pValue } = fitBetaBinomial([0, 1, 2].map((failed) => ({ failed, total: 2 })))!;
    expectClose(pValue, 0.279_972_900_426_815);
  });
});

describe("a median", () => {
  it("of 1, 2, 3 and 4 has limits from 1, where 0.75^7.15 is under a half, to none: 0.25^0.29 is not", () => {
    const curve = kaplanMeier({ time: [1, 2, 3, 4], event: [1, 1, 1, 1] });
    expectClose(curve.lower[0]!, 0.75 ** Math.exp((Z * Math.sqrt(1 / 12)) / Math.log(4 / 3)));
    expectClose(curve.upper[2]!, 0.25 ** Math.exp((-Z * Math.sqrt(3 / 4)) / Math.log(4)));
    const limits = { estimate: 2.5, lower: 1, upper: null };
    expect(medianSurvival(curve)).toEqual(limits);
    expect(survivalQuantile(curve, 0.5)).toEqual(limits);
  });
});

describe("two rates", () => {
  it("of 1 event in 10 against none in 20: at least (0.025 / 0.975) 20/10, and 1/3 by chance", () => {
    const rates = { first: { events: 1, exposure: 10 }, second: { events: 0, exposure: 20 } };
    const { ratio, lower, upper, pGreater } = rateRatio(rates)!;
    expectClose([lower, pGreater], [2 / 39, 1 / 3]);
    expect([ratio, upper]).toEqual([Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]);
  });
});

describe("two curves at one time", () => {
  // of four, one failed at 1, and two of another four: 3/4 and 1/2, both with ln(-ln S) and its error
  const one = kaplanMeier({ time: [1, 2, 2, 2], event: [1, 0, 0, 0] });
  const two = kaplanMeier({ time: [1, 1, 2, 2], event: [1, 1, 0, 0] });
  const spread = [Math.sqrt(1 / 12) / Math.log(4 / 3), Math.sqrt(1 / 4) / Math.log(2)] as const;

  it("differ by 1/4, with the far ends of 3/4 and 1/2 put together", () => {
    const lowest = 0.75 ** Math.exp(Z * spread[0]);
    const highest = 0.5 ** Math.exp(-Z * spread[1]);
    const { estimate, lower } = survivalDifferenceAt(one, two, 1)!;
    expectClose([estimate, lower], [1 / 4, 1 / 4 - Math.hypot(0.75 - lowest, highest - 0.5)]);
  });

  it("are tested by the distance of ln(-ln S) over the sum of both variances", () => {
    const distance = Math.log(Math.log(4 / 3)) - Math.log(Math.log(2));
    const expected = distance ** 2 / (spread[0] ** 2 + spread[1] ** 2);
    expectClose(survivalTestAt([one, two], 1)!.chiSquare, expected);
  });
});

describe("calibration", () => {
  it("of one fifth for all, with 3 of 4 failed: intercept ln 3 less the log odds of a fifth, error 2/sqrt 3", () => {
    const { intercept } = calibration([1, 1, 1, 0], [0.2, 0.2, 0.2, 0.2])!;
    expectClose([intercept.estimate, intercept.standardError], [Math.log(12), Math.sqrt(4 / 3)]);
  });
});

describe("standardised rates of 4 of 10 and 2 of 10, with nothing to standardise by", () => {
  const group = Array.from({ length: 20 }, (_, i) => (i < 10 ? 1 : 0));
  const outcome = Array.from({ length: 20 }, (_, i) => (i < 4 || (i >= 10 && i < 12) ? 1 : 0));
  const fit = logisticRegression({ outcome, covariates: [group] });
  const [first, second] = [1, 0].map((value) => standardisedRate(fit, [group.map(() => value)]));

  it("have limits at z / sqrt(n p q) from the log odds", () => {
    const odds = (side: number) => (4 / 6) * Math.exp((side * Z) / Math.sqrt(10 * 0.4 * 0.6));
    const expected = [odds(-1), odds(1)].map((value) => value / (1 + value));
    expectClose([first!.rate, first!.lower, first!.upper], [0.4, ...expected], 1e-7);
  });

  it("differ by 1/5, with the error of two shares", () => {
    const { estimate, standardError, lower } = standardisedDifference(fit, {
      first: first!,
      second: second!,
    });
    const error = Math.sqrt((0.4 * 0.6 + 0.2 * 0.8) / 10);
    expectClose([estimate, standardError, lower], [0.2, error, 0.2 - Z * error], 1e-7);
  });
});
