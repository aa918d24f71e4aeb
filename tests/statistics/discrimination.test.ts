import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { brierScore, calibration } from "../../src/statistics/calibration.ts";
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
    const area = rocArea(column("low"), fitted())!;
    expectClose([area.estimate, area.standardError], [roc.area, roc.se], 1e-8);
    expectClose([area.lower, area.upper], roc.limits, 1e-8);
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

  it("counts pairs by hand: 3 of 4 in order, one of them tied", () => {
    expectClose(rocArea([1, 1, 0, 0], [0.9, 0.4, 0.4, 0.2])!.estimate, 3.5 / 4);
    expect(rocArea([1, 1, 0, 0], [4, 3, 2, 1])!.estimate).toBe(1);
    expect(rocArea([1, 1], [4, 3])).toBeNull();
    expect(rocArea([1, 0], [4, 3])!.standardError).toBeNaN();
    expect(() => rocArea([1, 0], [4, Number.NaN])).toThrow("score[1] is NaN");
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
    expect(() => brierScore([1], [1.2])).toThrow("probability[0] is 1.2");
  });

  it("intercept and slope on other rows agree with R's glm", () => {
    const { probability, outcome, intercept, slope } = reference.calibration;
    const result = calibration(outcome, probability)!;
    expectClose([result.intercept.estimate, result.intercept.standardError], intercept, 1e-7);
    expectClose([result.slope.estimate, result.slope.standardError], slope, 1e-7);
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
