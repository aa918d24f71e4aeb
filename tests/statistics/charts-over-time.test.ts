import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ewma } from "../../src/statistics/ewma.ts";
import {
  expectedMinusObserved,
  observedMinusExpected,
} from "../../src/statistics/observed-minus-expected.ts";
import { pChart } from "../../src/statistics/p-chart.ts";
import {
  sequentialBoundaries,
  sequentialRatioTest,
} from "../../src/statistics/sequential-ratio-test.ts";
import { expectClose, expectPrinted } from "./close-to.ts";
import { evenly } from "./even-numbers.ts";
import { expectNear } from "./near.ts";
import { readNumbers, readReference } from "./reference-data.ts";

const reference = readReference("monitoring");
const ten = readNumbers("racusum_small.csv");
const outcomes = fc.array(fc.record({ y: fc.constantFrom(0, 1), p: evenly(0, 1) }), {
  maxLength: 50,
});

describe("the exponentially weighted moving average", () => {
  it("agrees with R, with limits from the exact variance", () => {
    const risk = new Array(5).fill(0.1);
    const path = ewma({ failed: [0, 1, 0, 0, 1], risk, newest: 0.2 });
    expectClose(path.values, reference.moving.values);
    expectClose(path.upper, reference.moving.upper);
    expect([...path.lower]).toEqual([0, 0, 0, 0, 0]);
    expect(path.signals).toEqual([]);
  });

  it("by hand: the newest value alone, and a changing risk", () => {
    const last = ewma({ failed: [1, 0], risk: [0.5, 0.2], newest: 1, width: 1 });
    expectClose(last.values, [1, 0]);
    expectClose(last.upper, [1, 0.6]);
    const half = ewma({ failed: [1, 1], risk: [0.5, 0.2], newest: 0.5, width: 1, start: 0.5 });
    expectClose(half.values, [0.75, 0.875]);
    expectClose(half.expected, [0.5, 0.35]);
    // variances 1/4 * 1/4, then 1/4 * 0.16 + 1/4 * 1/16
    expectClose(half.upper, [0.75, 0.35 + Math.sqrt(0.04 + 1 / 64)]);
    expect(half.signals).toEqual([1]);
  });

  it("stays within 0 and 1 and between its start and outcomes; is empty without operations", () => {
    fc.assert(
      fc.property(outcomes, evenly(0.01, 1), (cases, newest) => {
        const path = ewma({ failed: cases.map((c) => c.y), risk: cases.map((c) => c.p), newest });
        path.values.forEach((value, i) => {
          expect(value >= 0 && value <= 1).toBe(true);
          expect(path.lower[i]! <= path.expected[i]! && path.expected[i]! <= path.upper[i]!).toBe(
            true,
          );
        });
      }),
      { seed: 71, numRuns: 100 },
    );
    expect(ewma({ failed: [], risk: [], newest: 0.2 }).values).toHaveLength(0);
    expect(() => ewma({ failed: [1], risk: [0.1], newest: 0 })).toThrow(/newest is 0/);
  });
});

describe("the sequential probability ratio test", () => {
  const design = { acceptable: 0.1, unacceptable: 0.2, alpha: 0.05, beta: 0.2 };

  it("has its boundaries by hand", () => {
    const logOdds = Math.log(0.25 / (1 / 9));
    const { decrement, upper, lower } = sequentialBoundaries(design);
    expectClose(decrement, Math.log(0.9 / 0.8) / logOdds);
    expectClose([upper, lower], [Math.log(16) / logOdds, -Math.log(4.75) / logOdds]);
    expectPrinted(upper, "3.41902258");
    expectPrinted(lower, "-1.92142873");
  });

  it("has the boundaries of the rates and errors in HPB 2009;11:565: 20% and 35%, both 10%", () => {
    const trainee = { acceptable: 0.2, unacceptable: 0.35, alpha: 0.1, beta: 0.1 };
    const { decrement, upper, lower } = sequentialBoundaries(trainee);
    expectPrinted(decrement, "0.2706262239");
    expectPrinted(upper, "2.8637469160");
    expectClose(lower, -upper);
  });

  it("decides after 14 successes, after 4 failures, or not at all", () => {
    // 14 * 0.14524 = 2.033 is beyond 1.921; 4 - 4 * 0.14524 = 3.419 falls short by a hair
    const acceptable = sequentialRatioTest(new Array(20).fill(0), design);
    expect(acceptable).toMatchObject({ decision: "acceptable", decidedAt: 13 });
    const unacceptable = sequentialRatioTest([1, 1, 1, 1, 1], design);
    expect(unacceptable).toMatchObject({ decision: "unacceptable", decidedAt: 3 });
    expect(sequentialRatioTest([0, 1], design)).toMatchObject({
      decision: "undecided",
      decidedAt: null,
    });
    expect(sequentialRatioTest([], design).values).toHaveLength(0);
    expect(() => sequentialBoundaries({ ...design, acceptable: 0.2 })).toThrow(/acceptable is 0.2/);
    expect(() => sequentialBoundaries({ ...design, beta: 0.96 })).toThrow(/beta is 0.96/);
  });

  it("is the log-likelihood ratio over the log odds ratio", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(0, 1), { maxLength: 60 }), (failed) => {
        const { values } = sequentialRatioTest(failed, design);
        let logRatio = 0;
        failed.forEach((y, i) => {
          logRatio += y === 1 ? Math.log(2) : Math.log(0.8 / 0.9);
          expectNear(values[i]!, logRatio / Math.log(2.25), 1e-11);
        });
      }),
      { seed: 72, numRuns: 60 },
    );
  });
});

describe("observed minus expected", () => {
  it("agrees with R on ten cases, with exact limits", () => {
    const line = observedMinusExpected(ten.y!, ten.p!);
    expectNear(line.difference, reference.difference.values, 1e-12);
    expectNear(
      line.lower,
      reference.difference.limits.map((row: number[]) => row[0]),
      1e-12,
    );
    expectNear(
      line.upper,
      reference.difference.limits.map((row: number[]) => row[1]),
      1e-12,
    );
    const turned = expectedMinusObserved(ten.y!, ten.p!);
    expectNear(
      turned.difference,
      line.difference.map((value) => -value),
      0,
    );
    expectNear(
      turned.upper,
      line.lower.map((value) => -value),
      0,
    );
  });

  it("by hand: one eye at 1% has limits of none failed, at 50% of none and one", () => {
    const rare = observedMinusExpected([1], [0.01]);
    expectNear([rare.difference[0]!, rare.lower[0]!, rare.upper[0]!], [0.99, -0.01, -0.01], 1e-15);
    const even = observedMinusExpected([0], [0.5]);
    expectNear([even.lower[0]!, even.upper[0]!], [-0.5, 0.5], 1e-15);
    expect(observedMinusExpected([], []).difference).toHaveLength(0);
    expect(() => observedMinusExpected([1], [])).toThrow(/expected/);
    expect(() => observedMinusExpected([1], [Number.NaN])).toThrow(/risk\[0\] is NaN/);
  });

  it("has 0 within its limits or next to them, and wider ones at a higher level", () => {
    fc.assert(
      fc.property(outcomes, (cases) => {
        const failed = cases.map((c) => c.y);
        const risk = cases.map((c) => c.p);
        const line = observedMinusExpected(failed, risk);
        const wide = observedMinusExpected(failed, risk, 0.998);
        line.difference.forEach((value, i) => {
          expect(line.lower[i]! < 1 && line.upper[i]! > -1).toBe(true);
          expect(wide.lower[i]! <= line.lower[i]! && wide.upper[i]! >= line.upper[i]!).toBe(true);
          expectNear(value, line.observed[i]! - line.expected[i]!, 1e-12);
        });
      }),
      { seed: 73, numRuns: 60 },
    );
  });
});

describe("the p-chart", () => {
  const periods = [
    { failed: 2, total: 25 },
    { failed: 4, total: 100 },
    { failed: 14, total: 75 },
    { failed: 0, total: 0 },
  ];

  it("by hand: centre 20 / 200, limits 0.1 -+ 3 sqrt(0.09 / n), clipped at 0", () => {
    const chart = pChart(periods)!;
    expectClose(chart.centre, 0.1);
    expectClose(chart.points[1]!.lower, 0.01);
    expectClose(chart.points[1]!.upper, 0.19);
    expect(chart.points[0]).toMatchObject({ lower: 0, hasLower: false, position: "inside" });
    expectClose(chart.points[0]!.upper, 0.28);
    expect(chart.points[3]).toMatchObject({ rate: null, position: null });
    expect(pChart(periods, { target: 0.05 })!.points[2]!.position).toBe("above");
  });

  it("with exact limits is a funnel at 99.73%, with no lower limit where none is common", () => {
    const chart = pChart(periods, { limits: "exact" })!;
    expectPrinted(chart.points[0]!.level, "0.9973");
    expect(chart.points[0]).toMatchObject({ hasLower: false, hasUpper: true });
    const wide = pChart(periods, { limits: "exact", level: 0.9 })!;
    expect(wide.points[2]!.upper).toBeLessThan(chart.points[2]!.upper);
  });

  it("of none, all, or nobody", () => {
    for (const limits of ["three-sigma", "exact"] as const) {
      const none = pChart([{ failed: 0, total: 9 }], { limits })!;
      expect(none.points[0]).toMatchObject({ rate: 0, lower: 0, upper: 0, position: "inside" });
      const all = pChart([{ failed: 9, total: 9 }], { limits })!;
      expect(all.points[0]).toMatchObject({ rate: 1, position: "inside" });
    }
    expect(pChart([])).toBeNull();
    expect(pChart([{ failed: 0, total: 0 }])).toBeNull();
    expect(() => pChart(periods, { target: 1 })).toThrow(/target is 1/);
    const unknown = { limits: "two-sigma" as "exact" };
    expect(() => pChart(periods, unknown)).toThrow("limits is two-sigma; expected three-sigma");
    expect(() => pChart([{ failed: 3, total: 2 }])).toThrow(/failed is 3/);
  });

  it("has limits that narrow as periods grow", () => {
    const total = fc.integer({ min: 1, max: 400 });
    fc.assert(
      fc.property(total, fc.constantFrom("three-sigma" as const, "exact" as const), (n, limits) => {
        const chart = pChart(
          [
            { failed: 0, total: n },
            { failed: 0, total: 4 * n },
          ],
          { target: 0.13, limits },
        )!;
        const [small, large] = chart.points;
        expect(large!.upper).toBeLessThanOrEqual(small!.upper);
        expect(large!.lower).toBeGreaterThanOrEqual(small!.lower);
      }),
      { seed: 74, numRuns: 60 },
    );
  });
});
