import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { binomialCounts, poissonCounts } from "../../src/statistics/count-distributions.ts";
import {
  funnelPosition,
  interpolatedCount,
  proportionFunnelLimits,
  ratioFunnelLimits,
} from "../../src/statistics/funnel-limits.ts";
import {
  overdispersion,
  proportionErrors,
  ratioErrors,
  widenedFunnelLimits,
  winsoriseValues,
  zScores,
} from "../../src/statistics/overdispersion.ts";
import { sampleQuantile } from "../../src/statistics/sample-quantile.ts";
import { expectClose } from "./close-to.ts";
import { evenly } from "./even-numbers.ts";
import { expectNear } from "./near.ts";
import { readColumns, readNumbers, readReference } from "./reference-data.ts";

const reference = readReference("funnel");
const { hospital } = readColumns("surgical12.csv");
const { n, deaths } = readNumbers("surgical12.csv");
const overall = 208 / 2814;
const rates = deaths!.map((d, i) => d / n![i]!);
const units = { values: rates, standardErrors: proportionErrors(overall, n!), target: overall };
const outside = (level: number) =>
  hospital!.filter((_, i) => {
    const limits = proportionFunnelLimits(overall, n![i]!, level)!;
    return funnelPosition(rates[i]!, limits) !== "inside";
  });

describe("exact funnel limits", () => {
  it("by hand: 2 eyes at one half, P = 1/4, 3/4, 1", () => {
    const two = binomialCounts(2, 0.5);
    // p = 0.5: r = 1, 1 - (3/4 - 1/2) / (1/2) = 0.5;  p = 0.9: r = 2, 2 - 0.1 / 0.25
    expectClose(interpolatedCount(0.5, two), 0.5);
    expectClose(interpolatedCount(0.9, two), 1.6);
    expectClose(interpolatedCount(0.1, two), 0 - 0.15 / 0.25);
  });

  it("agree with the rule written out in R, for proportions and for ratios", () => {
    for (const { target, total, counts } of reference.proportion) {
      const distribution = binomialCounts(total, target);
      reference.p.forEach((p: number, k: number) => {
        expectNear(interpolatedCount(p, distribution), counts[k], 1e-9);
      });
    }
    for (const { expected, counts } of reference.ratio) {
      reference.p.forEach((p: number, k: number) => {
        expectNear(interpolatedCount(p, poissonCounts(expected)), counts[k], 1e-9);
      });
    }
  });

  it("divide by the size, at 95% and at 99.8%", () => {
    const limits = proportionFunnelLimits(0.1, 100)!;
    // r = 5 and 16 (the worked rule of Spiegelhalter 2005, appendix)
    expectClose([limits.lower, limits.upper], [0.0403805955, 0.1577186116], 1e-8);
    const wide = proportionFunnelLimits(0.13, 50, 0.998)!;
    expectClose([wide.lower, wide.upper], [0.00015234, 0.2864827587], 1e-4);
    const ratio = ratioFunnelLimits(20)!;
    expectClose([ratio.lower, ratio.upper], [0.56025005, 1.43728843], 1e-7);
  });

  it("do not exist where none, or all, failed is no rare outcome", () => {
    const small = proportionFunnelLimits(0.1, 20)!;
    expect(small).toMatchObject({ lower: 0, hasLower: false, hasUpper: true });
    expect(funnelPosition(0, small)).toBe("inside");
    expect(funnelPosition(0.25, small)).toBe("above");
    const high = proportionFunnelLimits(0.9, 5)!;
    expect(high).toMatchObject({ upper: 1, hasUpper: false });
    expect(funnelPosition(1, high)).toBe("inside");
    expect(ratioFunnelLimits(0.2)).toMatchObject({ lower: 0, hasLower: false, hasUpper: true });
    const rare = proportionFunnelLimits(0.005, 1)!;
    expect(rare).toMatchObject({ lower: 0, upper: 0, hasUpper: true });
    expect([0, 1].map((rate) => funnelPosition(rate, rare))).toEqual(["inside", "above"]);
    expect(proportionFunnelLimits(0.1, 1)).toMatchObject({ lower: 0, upper: 1, hasUpper: false });
  });

  it("flag of the twelve hospitals of the BUGS manual B, E, H and K at 95%, H at 99.8%", () => {
    expect(outside(0.95)).toEqual(["B", "E", "H", "K"]);
    expect(outside(0.998)).toEqual(["H"]);
  });

  it("are null for nobody and refuse an impossible target", () => {
    expect(proportionFunnelLimits(0.1, 0)).toBeNull();
    expect(ratioFunnelLimits(0)).toBeNull();
    expect(() => proportionFunnelLimits(0, 10)).toThrow(/target is 0; expected a number between/);
    expect(() => proportionFunnelLimits(0.1, -3)).toThrow(/total is -3/);
    expect(() => ratioFunnelLimits(-1)).toThrow(/expected is -1/);
  });

  it("nest by level, and what lies beyond them is as rare as their level says", () => {
    const target = evenly(0.005, 0.6);
    fc.assert(
      fc.property(target, fc.integer({ min: 1, max: 600 }), (theta, total) => {
        const narrow = proportionFunnelLimits(theta, total)!;
        const wide = proportionFunnelLimits(theta, total, 0.998)!;
        expect(wide.lower <= narrow.lower && narrow.upper <= wide.upper).toBe(true);
        expect(narrow.lower < theta && narrow.upper >= narrow.lower).toBe(true);
        const distribution = binomialCounts(total, theta);
        for (let x = 0; x <= total; x++) {
          const side = funnelPosition(x / total, narrow);
          if (side === "below") {
            expect(distribution.lowerTail(x)).toBeLessThanOrEqual(0.025 * (1 + 1e-9));
          }
          if (side === "above") {
            expect(distribution.upperTail(x + 1)).toBeLessThan(0.025 * (1 + 1e-9));
          }
        }
      }),
      { seed: 31, numRuns: 60 },
    );
  });
});

describe("over-dispersion", () => {
  it("agrees with R on the twelve hospitals, not winsorised, at 10% and at 20%", () => {
    const { target, z, Q, pFixed, pEstimated, dispersion } = reference.surgical;
    expectClose(overall, target);
    expectClose(zScores(units), z);
    for (const { share, winsorised, phi, tau2 } of dispersion) {
      const result = overdispersion(units, { winsorise: share })!;
      expectClose(result.winsorised, winsorised);
      expectClose([result.statistic, result.phi], [Q, phi]);
      expectClose(result.tauSquared, tau2);
      expectClose(result.pValue, pFixed);
    }
    expectClose(overdispersion(units, { isEstimated: true })!.pValue, pEstimated);
  });

  it("by hand: z of 2 and -2 with errors 1 and 1 has phi 4, tau squared 7", () => {
    const result = overdispersion(
      { values: [3, -1], standardErrors: [1, 1], target: 1 },
      { winsorise: 0 },
    )!;
    // (2 * 4 - 1) / (2 - 2 / 2)
    expect(result).toMatchObject({ phi: 4, statistic: 8, tauSquared: 7, degreesOfFreedom: 2 });
    expectClose(ratioErrors([4, 25]), [0.5, 0.2]);
  });

  it("widens limits by the factor or by the sum, never narrower than chance", () => {
    const unit = { target: 0.1, standardError: 0.03, most: 1 };
    const z = 1.959963984540054;
    const chance = widenedFunnelLimits({ ...unit, by: { phi: 0.4 } });
    expectClose([chance.lower, chance.upper], [0.1 - z * 0.03, 0.1 + z * 0.03]);
    expectClose(widenedFunnelLimits({ ...unit, by: { phi: 1.44 } }).upper, 0.1 + z * 0.036);
    const added = widenedFunnelLimits({ ...unit, by: { tauSquared: 0.0016 } });
    expectClose(added.upper, 0.1 + z * 0.05);
    expect(added).toMatchObject({ hasLower: true, hasUpper: true });
    const wide = widenedFunnelLimits({ ...unit, by: { phi: 9 } });
    expect(wide).toMatchObject({ lower: 0, hasLower: false });
    expect(funnelPosition(0, wide)).toBe("inside");
  });

  it("of one unit has no between-unit variance, of none is null, and refuses no spread", () => {
    const one = overdispersion({ values: [0.2], standardErrors: [0.1], target: 0.1 })!;
    expect(one.tauSquared).toBe(0);
    expectClose(one.phi, 1);
    expect(overdispersion({ values: [], standardErrors: [], target: 0.1 })).toBeNull();
    expect(() => zScores({ values: [1], standardErrors: [0], target: 1 })).toThrow(
      /standardErrors\[0\] is 0/,
    );
    expect(() => zScores({ values: [1, 2], standardErrors: [1], target: 1 })).toThrow(/expected/);
    expect(() => winsoriseValues([1, 2], 0.5)).toThrow(/share to winsorise is 0.5/);
    expect(() => proportionErrors(0.1, [20, Number.NaN])).toThrow("totals[1] is NaN");
    expect(() => ratioErrors([-1])).toThrow("expected[0] is -1");
    const unit = { target: 0.1, standardError: 0.02, by: { phi: 1.5 }, most: 1 };
    expect(() => widenedFunnelLimits({ ...unit, standardError: Number.NaN })).toThrow(
      "standardError[0] is NaN",
    );
    expect(() => widenedFunnelLimits({ ...unit, most: Number.NaN })).toThrow("most is NaN");
    expect(() => widenedFunnelLimits(unit, 95)).toThrow("level is 95");
  });

  it("does not depend on order, and winsorising never raises it", () => {
    const value = evenly(-3, 3);
    fc.assert(
      fc.property(fc.array(value, { minLength: 2, maxLength: 30 }), (values) => {
        const standardErrors = values.map((_, i) => 0.2 + i / 10);
        const all = { values, standardErrors, target: 0.1 };
        const plain = overdispersion(all, { winsorise: 0 })!;
        const turned = overdispersion(
          { ...all, values: values.toReversed(), standardErrors: standardErrors.toReversed() },
          { winsorise: 0 },
        )!;
        expectClose(turned.tauSquared, plain.tauSquared, 1e-6);
        expectClose(turned.phi, plain.phi);
        const spread = (v: Float64Array) => Math.max(...v) - Math.min(...v);
        expect(spread(overdispersion(all)!.winsorised)).toBeLessThanOrEqual(spread(plain.z));
      }),
      { seed: 32, numRuns: 100 },
    );
  });
});

describe("the sample quantile", () => {
  it("is R's default", () => {
    for (const { values, p, quantiles } of reference.quantiles) {
      expectClose(
        p.map((share: number) => sampleQuantile(values, share)),
        quantiles,
      );
    }
    expect(sampleQuantile([], 0.5)).toBeNull();
    expect(() => sampleQuantile([1], 2)).toThrow(/p is 2/);
    expect(() => sampleQuantile([1, Number.NaN], 0.5)).toThrow(/values\[1\] is NaN/);
  });
});
