import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { brierParts } from "../../src/statistics/brier-parts.ts";
import { brierScore, calibration } from "../../src/statistics/calibration.ts";
import { calibrationCurve } from "../../src/statistics/calibration-curve.ts";
import { hosmerLemeshow } from "../../src/statistics/hosmer-lemeshow.ts";
import { logisticRegression } from "../../src/statistics/logistic-regression.ts";
import { rocArea, rocDifference } from "../../src/statistics/roc-area.ts";
import { expectClose } from "./close-to.ts";
import { readReference } from "./reference-data.ts";

const reference = readReference("logistic");
const rows = reference.data as Record<string, number>[];
const column = (name: string) => rows.map((row) => row[name]!);
const names = ["age", "lwt", "race2", "race3", "smoke", "ptl", "ht", "ui"];
const fitted = () =>
  logisticRegression({ outcome: column("low"), covariates: names.map(column) }).probabilities;

describe("the area under the ROC curve", () => {
  it("agrees with R's pROC, ties and a paired comparison included", () => {
    const { roc } = reference;
    const area = rocArea(column("low"), fitted(), { limits: "DeLong" })!;
    expectClose([area.estimate, area.standardError], [roc.area, roc.se], 1e-8);
    expectClose([area.lower, area.upper], roc.limits, 1e-8);
    const logit = rocArea(column("low"), fitted(), { limits: "logit" })!;
    expectClose([logit.lower, logit.upper], roc.logit, 1e-8);
    const weight = rocArea(
      column("low"),
      column("lwt").map((w) => -w),
    )!;
    expectClose([weight.estimate, weight.standardError], [roc.lwt, roc.lwtSe]);
    const ages = column("age").map((age) => bankersRound(age / 5));
    const tied = rocArea(column("low"), ages)!;
    expectClose([tied.estimate, tied.standardError], [roc.ties, roc.tiesSe]);
    const difference = rocDifference(column("low"), { first: fitted(), second: ages })!;
    expectClose([difference.estimate, difference.z], [roc.difference, roc.z], 1e-7);
    expectClose(difference.pValue, roc.p, 1e-6);
  });

  it("has score limits that agree with roots found in R, also where the order is perfect", () => {
    const { roc } = reference;
    const area = rocArea(column("low"), fitted())!;
    expectClose([area.lower, area.upper], roc.score, 1e-8);
    expect(area.method).toBe("score");
    const outcome = Array.from({ length: 20 }, (_, i) => Number(i < 5));
    const perfect = rocArea(
      outcome,
      outcome.map((y, i) => 100 * y + i),
    )!;
    expectClose([perfect.lower, perfect.upper], roc.scoreOfAll, 1e-7);
  });

  it("has score limits by hand with one of each: (A - t)^2 = z^2 t (1 - t)", () => {
    const z2 = 1.959963984540054 ** 2;
    const tied = rocArea([1, 0], [3, 3])!;
    // 1/4 - t + t^2 = z^2 (t - t^2): t = (1 -+ sqrt(1 - 1 / (1 + z^2))) / 2
    const half = Math.sqrt(1 - 1 / (1 + z2)) / 2;
    expectClose([tied.lower, tied.upper], [0.5 - half, 0.5 + half]);
    const apart = rocArea([1, 0], [4, 3])!;
    expectClose([apart.lower, apart.upper], [1 / (1 + z2), 1]);
  });

  it("refuses limits that it does not know; those from an error need one", () => {
    const unknown = { limits: "Wald" as "score" };
    expect(() => rocArea([1, 0], [4, 3], unknown)).toThrow(/limits is Wald; expected score, logit/);
    for (const limits of ["logit", "DeLong"] as const) {
      expect(rocArea([1, 1, 0, 0], [4, 3, 2, 1], { limits })!.lower).toBeNaN();
    }
  });

  it("counts pairs by hand: 3 of 4 in order, one of them tied", () => {
    expectClose(rocArea([1, 1, 0, 0], [0.9, 0.4, 0.4, 0.2])!.estimate, 3.5 / 4);
    expect(rocArea([1, 1, 0, 0], [4, 3, 2, 1])!.estimate).toBe(1);
    expect(rocArea([1, 1], [4, 3])).toBeNull();
    expect(rocArea([1, 0], [4, 3])!.standardError).toBeNaN();
    expect(() => rocArea([1, 0], [4, Number.NaN])).toThrow("score[1] is NaN");
  });

  it("says nothing of two areas that differ though nothing varies", () => {
    const outcome = [0, 0, 1, 0, 0, 1];
    const score = [1, 2, 7, 3, 4, 8];
    const reversed = rocDifference(outcome, { first: score, second: score.map((s) => -s) })!;
    expect(reversed).toMatchObject({ estimate: 1, standardError: Number.NaN, pValue: Number.NaN });
    const same = rocDifference(outcome, { first: score, second: score.map((s) => 2 * s) })!;
    expect(same).toMatchObject({ estimate: 0, standardError: 0, z: 0, pValue: 1 });
  });

  it("depends on order alone, and is its complement for the opposite score", () => {
    const data = fc.array(fc.tuple(fc.nat(1), fc.nat(9)), { minLength: 4, maxLength: 50 });
    fc.assert(
      fc.property(data, (list) => {
        const outcome = list.map(([y]) => y);
        const score = list.map(([, s]) => s);
        const area = rocArea(outcome, score);
        fc.pre(area !== null && !Number.isNaN(area.standardError));
        expectClose(rocArea(outcome, score.map(Math.exp))!.estimate, area!.estimate);
        const opposite = rocArea(
          outcome,
          score.map((s) => -s),
        )!;
        expectClose(opposite.estimate, 1 - area!.estimate);
        expectClose(opposite.standardError, area!.standardError);
        expectClose([1 - opposite.upper, 1 - opposite.lower], [area!.lower, area!.upper], 1e-8);
        expect(area!.lower <= area!.estimate && area!.estimate <= area!.upper).toBe(true);
        const none = rocDifference(outcome, { first: score, second: score })!;
        expect([none.estimate, none.pValue]).toEqual([0, 1]);
      }),
      { seed: 92, numRuns: 150 },
    );
  });
});

describe("calibration", () => {
  it("the Brier score agrees with R; 0 and scaled 1 when perfect, scaled 0 for the overall share", () => {
    expectClose(brierScore(column("low"), fitted())!.score, reference.brier, 1e-8);
    expect(brierScore([1, 0], [1, 0])).toEqual({ score: 0, scaled: 1 });
    expectClose(brierScore([1, 0, 0, 0], [0.25, 0.25, 0.25, 0.25])!.scaled, 0);
    expect(brierScore([], [])).toBeNull();
    expect(brierScore([0, 0], [0.1, 0.2])!.scaled).toBeNull();
    expect(() => brierScore([1], [1.2])).toThrow("probability[0] is 1.2");
  });

  it("intercept and slope on other rows agree with R's glm", () => {
    const { probability, outcome, intercept, slope } = reference.calibration;
    const result = calibration(outcome, probability)!;
    expectClose([result.intercept.estimate, result.intercept.standardError], intercept, 1e-7);
    expectClose([result.slope.estimate, result.slope.standardError], slope, 1e-7);
  });

  it("says where predictions tell all rows apart, so that the slope has no end", () => {
    expect(calibration([0, 0, 1, 1], [0.1, 0.2, 0.8, 0.9])!.isSeparated).toBe(true);
    expect(calibration([0, 1, 0, 1], [0.1, 0.2, 0.8, 0.9])!.isSeparated).toBe(false);
  });

  it("on a model's own rows are 0 and 1, and null without both outcomes", () => {
    const result = calibration(column("low"), fitted())!;
    expect(Math.abs(result.intercept.estimate)).toBeLessThan(1e-7);
    expectClose(result.slope.estimate, 1, 1e-7);
    expectClose(result.expected, result.observed, 1e-8);
    expect(calibration([1, 1], [0.2, 0.3])).toBeNull();
    expect(() => calibration([1, 0], [1, 0.3])).toThrow("probability[0] is 1");
  });
});

describe("the parts of the Brier score", () => {
  it("agree with R over tenths of the predictions", () => {
    const parts = brierParts(column("low"), fitted(), { groups: 10 })!;
    const { reliability, resolution, uncertainty, within } = reference.brierTenths;
    expectClose(parts.reliability, reliability, 1e-7);
    expectClose(parts.resolution, resolution, 1e-7);
    expectClose(parts.uncertainty, uncertainty);
    expectClose(parts.within, within, 1e-7);
    expect(parts.groups).toBe(10);
  });

  it("by hand: two forecasts of 1/4 and 3/4, each right half the time", () => {
    const parts = brierParts([1, 0, 1, 0], [0.25, 0.25, 0.75, 0.75])!;
    expect(parts).toEqual({
      score: 0.3125,
      reliability: 0.0625,
      resolution: 0,
      uncertainty: 0.25,
      within: 0,
      groups: 2,
    });
  });

  it("add up to the score for any groups, and distinct predictions leave nothing within", () => {
    const data = fc.array(fc.tuple(fc.nat(1), fc.nat(20)), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(data, fc.constantFrom(undefined, 2, 5), (list, groups) => {
        const outcome = list.map(([y]) => y);
        const probability = list.map(([, p]) => p / 20);
        const parts = brierParts(outcome, probability, groups === undefined ? {} : { groups })!;
        const sum = parts.reliability - parts.resolution + parts.uncertainty + parts.within;
        expect(Math.abs(sum - brierScore(outcome, probability)!.score)).toBeLessThan(1e-12);
        expectClose(parts.score, brierScore(outcome, probability)!.score);
        if (groups === undefined) expect(Math.abs(parts.within)).toBeLessThan(1e-12);
        expect(parts.resolution).toBeLessThanOrEqual(parts.uncertainty + 1e-12);
      }),
      { seed: 93, numRuns: 150 },
    );
    expect(() => brierParts([1], [0.5], { groups: 1 })).toThrow(/groups is 1/);
  });
});

describe("the smooth calibration curve", () => {
  const inUnit = (share: number) => Math.min(1, Math.max(0, share));

  it("agrees with R's lowess without its later rounds", () => {
    const probability = fitted();
    const rounded = probability.map((p) => bankersRound(10 * p) / 10);
    for (const [expected, predicted, span] of [
      [reference.smooth, probability, 2 / 3],
      [reference.smoothTied, rounded, 1 / 2],
    ] as const) {
      const curve = calibrationCurve(column("low"), predicted, { span })!;
      const distinct = expected.at.filter((at: number, i: number) => at !== expected.at[i - 1]);
      expectClose(curve.predicted, distinct, 1e-7);
      const shares = distinct.map((at: number) => expected.share[expected.at.indexOf(at)]);
      // R takes the weight of neighbours within 0.1% of the reach as 1 and beyond 99.9% as 0
      expectClose(curve.observed, shares.map(inUnit), 1e-6);
    }
  });

  it("by hand: three evenly spaced, the middle one at full weight and the ends at none", () => {
    const curve = calibrationCurve([0, 1, 0], [0.2, 0.5, 0.8], { span: 1 })!;
    // at 0.2 the weights are 1 and (1 - 1/8)^3: a line through two points; so at 0.8
    expectClose(curve.observed, [0, 1, 0]);
    expectClose(calibrationCurve([1, 0, 0, 1], [0.3, 0.3, 0.3, 0.3])!.observed, [0.5]);
  });

  it("mirrors with the outcome, is 1 where everyone had the event, and knows no order of rows", () => {
    const data = fc.array(fc.tuple(fc.nat(1), fc.nat(40)), { minLength: 3, maxLength: 60 });
    fc.assert(
      fc.property(data, (list) => {
        const outcome = list.map(([y]) => y);
        const probability = list.map(([, p]) => p / 40);
        const curve = calibrationCurve(outcome, probability)!;
        const turned = calibrationCurve(outcome.toReversed(), probability.toReversed())!;
        expectClose(turned.predicted, curve.predicted);
        expect(curve.observed.every((share) => share >= 0 && share <= 1)).toBe(true);
        const all = calibrationCurve(
          outcome.map(() => 1),
          probability,
        )!;
        expectClose(all.observed, new Float64Array(all.observed.length).fill(1), 1e-9);
        const others = calibrationCurve(
          outcome.map((y) => 1 - y),
          probability,
        )!;
        expectClose(
          others.observed,
          curve.observed.map((share) => 1 - share),
          1e-8,
        );
      }),
      { seed: 94, numRuns: 150 },
    );
  });

  it("is null for nobody, and refuses a span that is no share", () => {
    expect(calibrationCurve([], [])).toBeNull();
    expect(() => calibrationCurve([1], [0.5], { span: 0 })).toThrow(/span is 0/);
    const many = Array.from({ length: 500 }, (_, i) => i / 499);
    expect(
      calibrationCurve(
        many.map((p) => Number(p > 0.4)),
        many,
      )!.predicted,
    ).toHaveLength(201);
  });
});

describe("the Hosmer–Lemeshow test", () => {
  it("agrees with R on the groups, observed, expected and the statistic (type-7 cuts)", () => {
    const { total, observed, expected, statistic } = reference.hosmer;
    const test = hosmerLemeshow(column("low"), fitted())!;
    expect(test.groups.map((group) => group.total)).toEqual(total);
    expect(test.groups.map((group) => group.observed)).toEqual(observed);
    expectClose(
      test.groups.map((group) => group.expected),
      expected,
      1e-7,
    );
    expectClose(test.statistic, statistic, 1e-7);
    expect(test.degreesOfFreedom).toBe(8);
    expectClose(test.pValue, 0.2381731, 1e-6);
  });

  it("has p 0 where what was predicted to be impossible happened", () => {
    const test = hosmerLemeshow([1, 0, 1, 1], [0, 0, 0.7, 0.9], { groups: 2, isOwnData: false })!;
    expect(test).toMatchObject({ statistic: Infinity, pValue: 0 });
  });

  it("merges equal cuts, and counts degrees for probabilities from elsewhere", () => {
    const outcome = [1, 0, 1, 0, 1, 0];
    const two = hosmerLemeshow(outcome, [0.2, 0.2, 0.2, 0.6, 0.6, 0.6], { isOwnData: false })!;
    expect(two.groups.length).toBeLessThanOrEqual(3);
    expect(two.degreesOfFreedom).toBe(two.groups.length);
    expect(hosmerLemeshow([], [])).toBeNull();
    expect(() => hosmerLemeshow(outcome, outcome, { groups: 1 })).toThrow(/groups is 1/);
    expect(hosmerLemeshow([1, 0], [0, 0], { groups: 2 })!.statistic).toBe(Infinity);
  });
});

/** R rounds a half to the even number. */
function bankersRound(value: number): number {
  const floor = Math.floor(value);
  if (value - floor !== 0.5) return Math.round(value);
  return floor % 2 === 0 ? floor : floor + 1;
}
