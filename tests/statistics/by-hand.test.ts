/** Answers that can be worked out on paper, for what has no such test beside its other ones. */
import { describe, expect, it } from "vitest";
import { bernoulliCusum } from "../../src/statistics/bernoulli-cusum.ts";
import { jackknife } from "../../src/statistics/bootstrap.ts";
import { breslowDay } from "../../src/statistics/breslow-day.ts";
import { calibration } from "../../src/statistics/calibration.ts";
import { chiSquareTest } from "../../src/statistics/chi-square-test.ts";
import { jeffreysInterval } from "../../src/statistics/clopper-pearson-interval.ts";
import { clusteredKaplanMeier } from "../../src/statistics/clustered-kaplan-meier.ts";
import { cochranArmitage } from "../../src/statistics/cochran-armitage.ts";
import { coxSurvival } from "../../src/statistics/cox-baseline.ts";
import { coxFirth } from "../../src/statistics/cox-firth.ts";
import { coxRegression } from "../../src/statistics/cox-regression.ts";
import { schoenfeldResiduals } from "../../src/statistics/cox-residuals.ts";
import {
  cusumLimit,
  cusumRunLength,
  cusumSignalProbabilities,
} from "../../src/statistics/cusum-run-length.ts";
import { stratifiedExact } from "../../src/statistics/fisher-exact.ts";
import { fisherExactTable } from "../../src/statistics/fisher-table.ts";
import { ratioFunnelLimits } from "../../src/statistics/funnel-limits.ts";
import { hallWellnerBand, hallWellnerPoint } from "../../src/statistics/hall-wellner-band.ts";
import { hosmerLemeshow } from "../../src/statistics/hosmer-lemeshow.ts";
import { kaplanMeier } from "../../src/statistics/kaplan-meier.ts";
import { logisticFirthEstimates, logisticFirthTest } from "../../src/statistics/logistic-firth.ts";
import {
  mantelHaenszelDifference,
  mantelHaenszelOddsRatio,
  mantelHaenszelRiskRatio,
  mantelHaenszelTest,
} from "../../src/statistics/mantel-haenszel.ts";
import {
  scoreDifference,
  scoreOddsRatio,
  scoreRatio,
} from "../../src/statistics/miettinen-nurminen.ts";
import { rateRatio } from "../../src/statistics/rate-ratio.ts";
import { oddsRatio, riskRatio } from "../../src/statistics/ratio-estimates.ts";
import { sampleQuantile } from "../../src/statistics/sample-quantile.ts";
import { casesPerGroup } from "../../src/statistics/sample-size.ts";
import { exactCasesPerGroup } from "../../src/statistics/two-group-power.ts";
import { wilsonCorrectedInterval } from "../../src/statistics/wilson-interval.ts";
import { expectClose } from "./close-to.ts";
import { tableOf } from "./two-by-two-tables.ts";

const Z = 1.959963984540054;

describe("one proportion", () => {
  it("Jeffreys' limit of 1 of 1 leaves 2.5% below it: F(x) = (2 / pi) (asin sqrt x - sqrt(x - x^2))", () => {
    const { lower, upper } = jeffreysInterval(1, 1)!;
    const below = (2 / Math.PI) * (Math.asin(Math.sqrt(lower)) - Math.sqrt(lower * (1 - lower)));
    expectClose(below, 0.025);
    expect(upper).toBe(1);
  });

  it("Wilson's corrected limits lie z errors from the share less half an eye", () => {
    const { lower, upper } = wilsonCorrectedInterval(7, 40)!;
    const error = (p: number) => Z * Math.sqrt((p * (1 - p)) / 40);
    expectClose(7 / 40 - 1 / 80 - lower, error(lower));
    expectClose(upper - (7 / 40 + 1 / 80), error(upper));
  });
});

describe("two groups", () => {
  it("4 of 10 against 2 of 10: ratios 2 and 8/3 with the sums of reciprocals as variances", () => {
    const table = tableOf([4, 10, 2, 10]);
    const risk = riskRatio(table)!;
    expectClose(risk.estimate, 2);
    expectClose(Math.log(risk.upper / 2), Z * Math.sqrt(1 / 4 - 1 / 10 + 1 / 2 - 1 / 10));
    const odds = oddsRatio(table)!;
    expectClose(odds.estimate, 8 / 3);
    expectClose(Math.log(odds.estimate / odds.lower), Z * Math.sqrt(1 / 4 + 1 / 6 + 1 / 2 + 1 / 8));
  });

  it("0 of 10 against 0 of 10: the score limit solves n d^2 (N - 1) / N = z^2 d (1 - d)", () => {
    expectClose(scoreDifference(tableOf([0, 10, 0, 10]))!.upper, Z ** 2 / (9.5 + Z ** 2));
  });

  it("0 of 10 against 5 of 10: at the limits of both ratios the score is z errors from 0", () => {
    // held to the ratio r the likeliest q solves (r q)' s and q's equation; with none in the first
    // 20 r q^2 - (10 + 5 r + 10 r) q + 5 = 0
    const table = tableOf([0, 10, 5, 10]);
    const r = scoreRatio(table)!.upper;
    const b = 10 + 15 * r;
    const q = (b - Math.sqrt(b * b - 400 * r)) / (40 * r);
    const p = r * q;
    const variance = ((p * (1 - p)) / 10 + (r * r * q * (1 - q)) / 10) * (20 / 19);
    expectClose(r * 0.5, Z * Math.sqrt(variance), 1e-7);
    // and to the odds ratio o: p = o q / (1 + q (o - 1)), p + q = 1/2, both ten eyes
    const o = scoreOddsRatio(table)!.upper;
    const share = (x: number) => (o * x) / (1 + x * (o - 1)) + x - 1 / 2;
    let [low, high] = [0, 1 / 2];
    for (let i = 0; i < 200; i++) {
      const middle = (low + high) / 2;
      if (share(middle) > 0) high = middle;
      else low = middle;
    }
    const [held, second] = [1 / 2 - low, low];
    const information = 1 / (10 * held * (1 - held)) + 1 / (10 * second * (1 - second));
    expectClose((10 * held) ** 2 * information, Z ** 2 * (20 / 19), 1e-6);
  });

  it("chi-square of all against none of ten is 20, and 16.2 with Yates' correction", () => {
    const table = [
      [10, 0],
      [0, 10],
    ];
    expectClose(chiSquareTest(table).statistic, 20);
    expectClose(chiSquareTest(table, { yates: true }).statistic, 16.2);
  });

  it("Fisher's test of [[2, 0, 0], [0, 1, 1]]: two of six tables are as rare, p 1/3", () => {
    const table = [
      [2, 0, 0],
      [0, 1, 1],
    ];
    expectClose(fisherExactTable(table)!, 1 / 3);
  });

  it("3 events against 1 in equal time: p 10/16", () => {
    const group = (events: number) => ({ events, exposure: 7 });
    const { ratio, pTwoSided } = rateRatio({ first: group(3), second: group(1) })!;
    expectClose([ratio, pTwoSided], [3, 10 / 16]);
  });

  it("a trend over two groups is chi-square without correction", () => {
    const groups = [
      { failed: 3, total: 20 },
      { failed: 9, total: 25 },
    ];
    const table = [
      [3, 17],
      [9, 16],
    ];
    expectClose(cochranArmitage(groups).chiSquare, chiSquareTest(table).statistic);
  });

  it("eyes per group for 0.1 against 0.5: (z + z')^2 over the squared difference, corrected", () => {
    // one-sided 2.5% and 80%: pooled 0.3
    const z2 = 0.8416212335729143;
    const top = Z * Math.sqrt(2 * 0.3 * 0.7) + z2 * Math.sqrt(0.1 * 0.9 + 0.5 * 0.5);
    const plain = (top / 0.4) ** 2;
    const corrected = (plain / 4) * (1 + Math.sqrt(1 + 4 / (plain * 0.4))) ** 2;
    expect(casesPerGroup({ target: 0.1, other: 0.5 })).toEqual({
      plain: Math.ceil(plain),
      corrected: Math.ceil(corrected),
    });
    // next to none against next to all: 4 each, the least at which p = 2/70 is under 5%
    expect(exactCasesPerGroup({ rates: [0.001, 0.999] })).toBe(4);
  });
});

describe("two groups across strata", () => {
  const strata = [tableOf([5, 10, 3, 10]), tableOf([4, 10, 2, 10])];

  it("of equal size: 9/5, 67/27, a fifth, and (2)^2 over the sum of variances", () => {
    expectClose(mantelHaenszelRiskRatio(strata)!.estimate, 9 / 5);
    expectClose(mantelHaenszelOddsRatio(strata)!.estimate, 67 / 27);
    expectClose(mantelHaenszelDifference(strata)!.estimate, 1 / 5);
    const variance = (8 * 12 + 6 * 14) / 76;
    expectClose(mantelHaenszelTest(strata).statistic, 4 / variance);
    expectClose(mantelHaenszelTest(strata).correctedStatistic, 1.5 ** 2 / variance);
  });

  it("opposed: Breslow and Day's is 4, of which Tarone takes nothing", () => {
    // the common odds ratio is 1: two failures expected in each cell, variance 1 / (4 / 2)
    const opposed = breslowDay([tableOf([3, 4, 1, 4]), tableOf([1, 4, 3, 4])])!;
    expectClose([opposed.statistic, opposed.taroneStatistic], [4, 4]);
  });

  it("of two eyes: both in the first group has 1/4, with none 1/2", () => {
    const test = stratifiedExact([tableOf([1, 1, 0, 1]), tableOf([1, 1, 0, 1])]);
    expectClose([test.pGreater, test.pTwoSided], [1 / 4, 1 / 2]);
  });
});

describe("survival", () => {
  it("clustered: two patients whose two eyes fail together are two", () => {
    const curve = clusteredKaplanMeier({
      ...{ time: [1, 1, 2, 2], event: [1, 1, 1, 1] },
      cluster: ["a", "a", "b", "b"],
    });
    expectClose([curve.survival[0]!, curve.standardError[0]!], [1 / 2, Math.sqrt(1 / 8)]);
  });

  it("the band at the first of four events: S 3/4, n V 1/3, width k 4/3 3/4 / 2", () => {
    const curve = kaplanMeier({ time: [1, 2, 3, 4], event: [1, 0, 0, 0] });
    const band = hallWellnerBand(curve)!;
    expectClose(band.lower[0]!, 3 / 4 - hallWellnerPoint(1 / 4, 0.95) / 2);
  });

  it("Cox's baseline without covariates is 1/3, then 1/3 + 1/2", () => {
    const fit = coxRegression({ time: [1, 2, 3], event: [1, 1, 0], covariates: [] });
    const [curve] = coxSurvival(fit, []);
    expectClose(curve!.hazard, [1 / 3, 5 / 6]);
    expectClose(curve!.standardError[1]! / curve!.survival[1]!, Math.sqrt(1 / 9 + 1 / 4));
  });

  it("Schoenfeld's residuals where the squared hazard ratio is 2", () => {
    // risk sets {0, 1, 0} and {1, 0}: -r / (2 + r) + 1 / (1 + r) = 0
    const fit = coxRegression({ time: [1, 2, 3], event: [1, 1, 0], covariates: [[0, 1, 0]] });
    const r = Math.SQRT2;
    expectClose(schoenfeldResiduals(fit).sums[0]!, [-r / (2 + r), 1 / (1 + r)], 1e-8);
  });

  it("Firth's Cox with one event among two: p^(3/2) (1 - p)^(1/2) is greatest at 3/4", () => {
    const fit = coxFirth({ time: [1, 2], event: [1, 0], covariates: [[1, 0]] });
    expectClose(fit.coefficients[0]!.estimate, Math.log(3), 1e-7);
  });
});

describe("a prediction", () => {
  it("of odds 1 to e and e to 1, with shares 1/4 and 1/2: slope ln 3 / 2", () => {
    const p = 1 / (1 + Math.E);
    const { slope, observed } = calibration(
      [1, 0, 0, 0, 1, 1, 0, 0],
      [p, p, p, p, 1 - p, 1 - p, 1 - p, 1 - p],
    )!;
    expectClose(slope.estimate, Math.log(3) / 2, 1e-8);
    expect(observed).toBe(3);
  });

  it("of one half for all, with 3 of 4 failed: intercept ln 3", () => {
    const { intercept } = calibration([1, 1, 1, 0], [0.5, 0.5, 0.5, 0.5])!;
    expectClose(intercept.estimate, Math.log(3), 1e-8);
  });

  it("of 20% and 60% of five, of whom 2 and 3 failed: 1 / (1 (1 - 1/5)), and nothing", () => {
    const test = hosmerLemeshow([1, 1, 0, 0, 0, 1, 1, 1, 0, 0], tenth(), {
      groups: 2,
      isOwnData: false,
    })!;
    expectClose(test.statistic, 1.25);
    expect(test.degreesOfFreedom).toBe(2);
  });

  const tenth = () => [...new Array(5).fill(0.2), ...new Array(5).fill(0.6)];

  it("Firth's of 0 of 2 against 2 of 2 adds a half to each: ln 25, its test by the likelihoods", () => {
    const input = { outcome: [0, 0, 1, 1], covariates: [[0, 0, 1, 1]] };
    const { estimates, probabilities } = logisticFirthEstimates(input);
    expectClose(estimates, [-Math.log(5), 2 * Math.log(5)], 1e-7);
    expectClose(probabilities, [1 / 6, 1 / 6, 5 / 6, 5 / 6], 1e-7);
    // information: determinant of 2 p (1 - p) of each group; with no effect both are at 1/2
    const value = (p: number) => 4 * Math.log(1 - p) + Math.log(2 * p * (1 - p));
    expectClose(
      logisticFirthTest(input).statistic,
      2 * (value(1 / 6) - (4 * Math.log(1 / 2) + Math.log(1 / 2))),
      1e-7,
    );
  });
});

describe("series and samples", () => {
  it("a limit that one failure passes is waited for 1 / p operations", () => {
    const design = { risks: [0.1], oddsRatio: 2 };
    expectClose(cusumRunLength(design, 0.5), 10);
    const within = cusumSignalProbabilities(design, { limit: 0.5, operations: 3 });
    expectClose(within, [0.1, 0.19, 0.271]);
    // no limit waits less; to wait longer it must take more than one failure
    expect(cusumLimit(design, 9)).toBeNull();
    expectClose(cusumLimit(design, 20)!, Math.log(2 / 1.1), 1e-5);
  });

  it("against a better rate the Bernoulli chart counts successes", () => {
    const { values } = bernoulliCusum([0, 1, 0], { expected: 0.5, watched: 0.25, limit: 9 });
    const up = Math.log(1.5);
    expectClose(values, [up, 0, up]);
  });

  it("a ratio funnel of next to nothing expected has no lower limit", () => {
    // e^-0.01 is 0.99: none is common, one is beyond 97.5%
    const { hasLower, upper } = ratioFunnelLimits(0.01)!;
    expect(hasLower).toBe(false);
    // r = 0: (P(0) - 0.975) / P(0) below 0 eyes
    expectClose(upper, Math.max(0, -(Math.exp(-0.01) - 0.975) / Math.exp(-0.01)) / 0.01);
  });

  it("each left out of 1, 2 and 6: means 4, 7/2 and 3/2", () => {
    const values = [1, 2, 6];
    const statistic = (rows: Int32Array) =>
      rows.reduce((sum, row) => sum + values[row]!, 0) / rows.length;
    expectClose(jackknife({ rows: 3, statistic })!, [4, 3.5, 1.5]);
  });

  it("the lower quartile of 1, 2, 3, 4 by six definitions (Hyndman and Fan 1996)", () => {
    const quartiles = ([4, 5, 6, 7, 8, 9] as const).map((definition) =>
      sampleQuantile([4, 1, 3, 2], 0.25, definition),
    );
    expectClose(quartiles, [1, 1.5, 1.25, 1.75, 17 / 12, 1.4375]);
  });
});
