import { describe, expect, it } from "vitest";
import { kaplanMeier } from "../../src/statistics/kaplan-meier.ts";
import { restrictedMean, restrictedMeanDifference } from "../../src/statistics/restricted-mean.ts";
import { medianSurvival, survivalQuantile } from "../../src/statistics/survival-quantile.ts";
import { expectClose } from "./close-to.ts";
import { followUps, placebo, sixMercaptopurine } from "./follow-ups.ts";
import { readNumbers, readReference } from "./reference-data.ts";

const reference = readReference("survival");
const lung = () => followUps("lung.csv", "time", "status", "2");

describe("quantiles of survival", () => {
  it("agree with R's quantile of survfit", () => {
    const curves = {
      lung: kaplanMeier(lung()),
      lungLog: kaplanMeier({ ...lung(), limits: "log" }),
      placebo: kaplanMeier(placebo()),
      sixMp: kaplanMeier(sixMercaptopurine()),
      // level at every quarter, where R takes the midpoint
      even: kaplanMeier({ time: [1, 2, 3, 4, 5, 6, 7, 8], event: new Uint8Array(8).fill(1) }),
    };
    for (const [name, curve] of Object.entries(curves)) {
      [0.25, 0.5, 0.75].forEach((share, k) => {
        const ours = survivalQuantile(curve, share);
        const theirs = reference.quantiles[name];
        expect(ours.estimate).toBe(orNull(theirs.quantile[k]));
        expect(ours.lower).toBe(orNull(theirs.lower[k]));
        expect(ours.upper).toBe(orNull(theirs.upper[k]));
      });
    }
  });

  it("are the midpoint where the curve is level at that height, as in a plain median", () => {
    expect(medianSurvival(kaplanMeier({ time: [1, 2, 3, 4], event: [1, 1, 1, 1] })).estimate).toBe(
      2.5,
    );
  });

  it("end a level that the curve does not leave with its last day, as R 4.2.2's quantile of survfit", () => {
    const pair = kaplanMeier({ time: [2, 5], event: [1, 0] });
    expect(medianSurvival(pair).estimate).toBe(3.5);
    const four = kaplanMeier({ time: [2, 3, 5, 6], event: [1, 1, 0, 0] });
    expect(medianSurvival(four).estimate).toBe(4.5);
  });

  it("are null where not reached, with nobody or with none failed", () => {
    const none = { estimate: null, lower: null, upper: null };
    expect(medianSurvival(kaplanMeier({ time: [], event: [] }))).toEqual(none);
    expect(medianSurvival(kaplanMeier({ time: [3, 4], event: [0, 0] }))).toEqual(none);
    expect(() => survivalQuantile(kaplanMeier(lung()), 1)).toThrow(/share is 1/);
  });
});

describe("restricted mean survival", () => {
  it("agrees with R's survfit", () => {
    const sex = readNumbers("lung.csv").sex!;
    const all = lung();
    const of = (code: number) =>
      kaplanMeier({
        time: all.time.filter((_, i) => sex[i] === code),
        event: all.event.filter((_, i) => sex[i] === code),
      });
    const pair = (mean: ReturnType<typeof restrictedMean>) => [mean!.estimate, mean!.standardError];
    expectClose(pair(restrictedMean(kaplanMeier(sixMercaptopurine()), 23)), reference.rmst.sixMp);
    expectClose(pair(restrictedMean(kaplanMeier(placebo()), 23)), reference.rmst.placebo);
    expectClose(pair(restrictedMean(of(1), 365)), reference.rmst.lungMale);
    expectClose(pair(restrictedMean(of(2), 365)), reference.rmst.lungFemale);
  });

  it("without censoring is the mean of min(time, horizon), by hand", () => {
    const curve = kaplanMeier({ time: [2, 4, 9], event: [1, 1, 1] });
    const mean = restrictedMean(curve, 6)!;
    expectClose(mean.estimate, 4);
    // the variance of 2, 4, 6 with divisor n, over n
    expectClose(mean.standardError, Math.sqrt(8 / 3 / 3));
  });

  it("of one against one, failed and not, is no proof: by hand from the limits of each", () => {
    const failed = kaplanMeier({ time: [2], event: [1] });
    const free = kaplanMeier({ time: [10], event: [0] });
    // one of one: survival up to day 2 is 0.025 or more, beyond it 0.975 or less
    const alone = restrictedMean(failed, 10)!;
    expectClose([alone.estimate, alone.lower, alone.upper], [2, 2 * 0.025, 2 + 8 * 0.975]);
    const { estimate, lower, upper, z, pValue } = restrictedMeanDifference(failed, free, {
      horizon: 10,
    })!;
    expectClose([estimate, lower], [-8, -8 - (2 - 2 * 0.025)]);
    expectClose(upper, -8 + Math.hypot(8 * 0.975, 10 - 10 * 0.025));
    expectClose(z, (-8 / Math.hypot(7.8, 9.75)) * 1.959963984540054);
    expect(pValue).toBeGreaterThan(0.2);
    // at another level than that of the curves
    const wider = restrictedMeanDifference(free, failed, { horizon: 10, level: 0.99 })!;
    expectClose(wider.lower, 8 - Math.hypot(10 - 10 * 0.005, 8 * 0.995));
  });

  it("differs between arms with the errors added in squares", () => {
    const one = kaplanMeier(sixMercaptopurine());
    const two = kaplanMeier(placebo());
    const { sixMp, placebo: other } = reference.rmst;
    const difference = restrictedMeanDifference(one, two, { horizon: 23 })!;
    expectClose(difference.estimate, sixMp[0] - other[0]);
    expectClose(difference.standardError, Math.hypot(sixMp[1], other[1]));
    const reversed = restrictedMeanDifference(two, one, { horizon: 23 })!;
    expectClose([reversed.lower, reversed.upper], [-difference.upper, -difference.lower]);
    expectClose(reversed.pValue, difference.pValue);
  });

  it("is not estimable beyond the last time of a curve above 0", () => {
    expect(restrictedMean(kaplanMeier(sixMercaptopurine()), 36)).toBeNull();
    expectClose(restrictedMean(kaplanMeier(placebo()), 1000)!.estimate, 182 / 21);
    expect(restrictedMean(kaplanMeier({ time: [], event: [] }), 5)).toBeNull();
    expectClose(restrictedMean(kaplanMeier({ time: [7, 8], event: [0, 0] }), 5)!.estimate, 5);
  });
});

function orNull(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}
