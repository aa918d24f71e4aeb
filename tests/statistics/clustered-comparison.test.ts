import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type ClusteredGroup,
  clusteredComparison,
} from "../../src/statistics/clustered-comparison.ts";
import type { ComparisonEstimate } from "../../src/statistics/newcombe-difference.ts";
import { oddsRatio } from "../../src/statistics/ratio-estimates.ts";
import { wilsonInterval } from "../../src/statistics/wilson-interval.ts";
import { expectClose } from "./close-to.ts";
import { readNumbers, readReference } from "./reference-data.ts";

const reference = readReference("clustered");
const triple = (part: ComparisonEstimate | null) => [part!.estimate, part!.lower, part!.upper];

/** Untreated eyes of the patients, then treated ones. */
function arms(isUsed: (id: number, trt: number) => boolean): [ClusteredGroup, ClusteredGroup] {
  const { status, trt, id } = readNumbers("retinopathy.csv");
  const arm = (code: number): ClusteredGroup => {
    const rows = [...id!.keys()].filter((i) => trt![i] === code && isUsed(id![i]!, code));
    return { failed: rows.map((i) => status![i]!), cluster: rows.map((i) => id![i]!) };
  };
  return [arm(0), arm(1)];
}

describe("two groups of eyes in patients", () => {
  it("agree with R's clustered regressions: both eyes of all, and one eye of some", () => {
    for (const [expected, groups] of [
      [reference.both, arms(() => true)],
      [reference.some, arms((id, trt) => trt === 1 || id % 2 === 1)],
    ] as const) {
      const { difference, riskRatio, oddsRatio } = clusteredComparison(...groups)!;
      expectClose(triple(difference), expected.difference);
      expectClose(triple(riskRatio), expected.riskRatio, 1e-8);
      expectClose(triple(oddsRatio), expected.oddsRatio, 1e-8);
    }
  });

  it("by hand: four patients with one eye in each group, of which one differs", () => {
    // shares 3/4 and 1/2; s1 = (1/4)(1/4, 1/4, 1/4, -3/4), s2 = (1/4)(1/2, 1/2, -1/2, -1/2)
    const cluster = ["a", "b", "c", "d"];
    const { difference, riskRatio } = clusteredComparison(
      { failed: [1, 1, 1, 0], cluster },
      { failed: [1, 1, 0, 0], cluster },
    )!;
    expectClose(difference.estimate, 1 / 4);
    // s1 / p1 - s2 / p2 = (1/4)(-2/3, -2/3, 4/3, 0): squares 24/9 / 16, times 4/3
    const error = Math.sqrt((4 / 3) * (24 / 9 / 16));
    expectClose(riskRatio!.upper, 1.5 * Math.exp(1.959963984540054 * error));
  });

  it("with one eye a patient are nearly two plain groups", () => {
    const group = (failed: number, total: number, from: number): ClusteredGroup => ({
      failed: Array.from({ length: total }, (_, i) => Number(i < failed)),
      cluster: Array.from({ length: total }, (_, i) => from + i),
    });
    const { oddsRatio: clustered } = clusteredComparison(group(30, 400, 0), group(60, 400, 400))!;
    const plain = oddsRatio({
      first: { failed: 30, total: 400 },
      second: { failed: 60, total: 400 },
    })!;
    const width = (part: ComparisonEstimate) => Math.log(part.upper / part.lower);
    // G / (G - 1) on the variance, G = 800
    expectClose(width(clustered!) / width(plain), Math.sqrt(800 / 799), 1e-9);
  });

  it("exchanged negate and invert; a group and itself differ by nothing, without error", () => {
    const eye = fc.record({ y: fc.nat(1), patient: fc.nat(12) });
    const group = fc.array(eye, { minLength: 3, maxLength: 30 });
    const of = (list: { y: number; patient: number }[]): ClusteredGroup => ({
      failed: list.map(({ y }) => y),
      cluster: list.map(({ patient }) => patient),
    });
    fc.assert(
      fc.property(group, group, (one, two) => {
        const there = clusteredComparison(of(one), of(two))!;
        const back = clusteredComparison(of(two), of(one))!;
        expectClose(
          [back.difference.lower, back.difference.upper],
          [-there.difference.upper, -there.difference.lower],
          1e-8,
        );
        expect(back.riskRatio === null).toBe(there.riskRatio === null);
        if (there.oddsRatio !== null) {
          expectClose(back.oddsRatio!.lower, 1 / there.oddsRatio.upper, 1e-8);
        }
        const same = clusteredComparison(of(one), of(one))!.riskRatio;
        if (same !== null) expectClose([same.lower, same.upper], [1, 1]);
      }),
      { seed: 45, numRuns: 100 },
    );
  });

  it("with one eye of each patient failed are as sure as if both eyes agreed, not certain", () => {
    const half = (patients: number, from: number): ClusteredGroup => ({
      failed: Array.from({ length: 2 * patients }, (_, i) => i % 2),
      cluster: Array.from({ length: 2 * patients }, (_, i) => from + Math.floor(i / 2)),
    });
    const { oddsRatio: odds, riskRatio } = clusteredComparison(half(4, 0), half(6, 100))!;
    // Woolf's and Katz's errors of 2 of 4 patients against 3 of 6
    expectClose(odds!.logStandardError, Math.sqrt(2 / 2 + 2 / 3));
    expectClose(riskRatio!.logStandardError, Math.sqrt(1 / 2 - 1 / 4 + 1 / 3 - 1 / 6));
  });

  it("with none failed have a difference alone, and need both groups", () => {
    const none = (total: number, from: number) => ({
      failed: new Array(total).fill(0),
      cluster: Array.from({ length: total }, (_, i) => from + i),
    });
    const { difference, riskRatio, oddsRatio } = clusteredComparison(none(10, 0), none(20, 10))!;
    expectClose(difference.upper, wilsonInterval(0, 10)!.upper);
    expect([riskRatio, oddsRatio]).toEqual([null, null]);
    expect(clusteredComparison(none(0, 0), none(3, 0))).toBeNull();
    const short = { failed: [1, 0], cluster: ["a"] };
    expect(() => clusteredComparison(short, none(3, 0))).toThrow("cluster has 1 values");
  });
});
