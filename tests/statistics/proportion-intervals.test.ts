import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  clopperPearsonInterval,
  jeffreysInterval,
} from "../../src/statistics/clopper-pearson-interval.ts";
import type { Interval } from "../../src/statistics/interval.ts";
import { midPInterval } from "../../src/statistics/mid-p-interval.ts";
import { wilsonCorrectedInterval, wilsonInterval } from "../../src/statistics/wilson-interval.ts";
import { expectClose, expectPrinted } from "./close-to.ts";
import { evenly } from "./even-numbers.ts";
import { readReference } from "./reference-data.ts";

const methods = {
  wilson: wilsonInterval,
  corrected: wilsonCorrectedInterval,
  exact: clopperPearsonInterval,
  midP: midPInterval,
  jeffreys: jeffreysInterval,
};
type Method = keyof typeof methods;
const names = Object.keys(methods) as Method[];
const limits = (interval: Interval | null) => [interval!.lower, interval!.upper];

describe("intervals for one proportion", () => {
  it("print as in Newcombe, Stat Med 1998;17:857, table I, method 3 (Wilson)", () => {
    const printed = [
      [81, 263, "0.2553", "0.3662"],
      [15, 148, "0.0624", "0.1605"],
      [0, 20, "0.0000", "0.1611"],
      [1, 29, "0.0061", "0.1718"],
    ] as const;
    for (const [failed, total, lower, upper] of printed) {
      expectPrinted(wilsonInterval(failed, total)!.lower, lower);
      expectPrinted(wilsonInterval(failed, total)!.upper, upper);
    }
  });

  it("mid-P keeps its digits where the rate is tiny: R 4.2.2, pbinom and dbinom by uniroot", () => {
    expectClose(midPInterval(1, 1_000_000)!.lower / 5.00203447757401e-8, 1);
  });

  it("agree with R's prop.test, binom.test and beta quantiles at three levels", () => {
    for (const row of readReference("proportions").intervals) {
      for (const name of names) {
        const interval = methods[name](row.failed, row.total, row.level);
        expectClose(limits(interval), row[name], name === "midP" ? 1e-7 : 1e-9);
      }
    }
  });

  it("have limits that can be had by hand where none or all failed", () => {
    expectClose(clopperPearsonInterval(0, 20)!.upper, 1 - 0.025 ** (1 / 20));
    expectClose(midPInterval(0, 20)!.upper, 1 - 0.05 ** (1 / 20));
    const z2 = 1.959963984540054 ** 2;
    expectClose(wilsonInterval(0, 20)!.upper, z2 / (20 + z2));
    expect(clopperPearsonInterval(29, 29)!.upper).toBe(1);
  });

  it("are not estimable for nobody, and refuse what cannot be", () => {
    for (const name of names) {
      expect(methods[name](0, 0)).toBeNull();
      expect(() => methods[name](5, 4)).toThrow(/failed is 5 of a total of 4/);
      expect(() => methods[name](1.5, 4)).toThrow(RangeError);
      expect(() => methods[name](Number.NaN, 4)).toThrow(RangeError);
      expect(() => methods[name](1, 4, 1)).toThrow(/level is 1; expected/);
      expect(() => methods[name]("1" as unknown as number, 4)).toThrow(TypeError);
    }
  });

  it("carry their method by name", () => {
    expect(names.map((name) => methods[name](1, 4)!.method)).toEqual([
      "Wilson",
      "Wilson with continuity correction",
      "Clopper–Pearson",
      "mid-P",
      "Jeffreys",
    ]);
  });

  const counts = fc
    .tuple(fc.integer({ min: 1, max: 400 }), evenly(0, 1))
    .map(([total, share]) => [Math.round(total * share), total] as const);

  it("lie in [0, 1] around the proportion, and mirror when failures become successes", () => {
    fc.assert(
      fc.property(counts, fc.constantFrom(...names), ([failed, total], name) => {
        const [lower, upper] = limits(methods[name](failed, total));
        const mirrored = limits(methods[name](total - failed, total));
        expect(lower!).toBeGreaterThanOrEqual(0);
        expect(upper!).toBeLessThanOrEqual(1);
        expect(lower!).toBeLessThanOrEqual(failed / total);
        expect(upper!).toBeGreaterThanOrEqual(failed / total);
        expectClose([1 - mirrored[1]!, 1 - mirrored[0]!], [lower!, upper!], 1e-8);
      }),
      { seed: 11, numRuns: 200 },
    );
  });

  it("nest: mid-P within Clopper–Pearson, Wilson within its corrected form, 95% within 99%", () => {
    fc.assert(
      fc.property(counts, ([failed, total]) => {
        const within = (inner: Interval | null, outer: Interval | null) => {
          expect(inner!.lower).toBeGreaterThanOrEqual(outer!.lower - 1e-12);
          expect(inner!.upper).toBeLessThanOrEqual(outer!.upper + 1e-12);
        };
        within(midPInterval(failed, total), clopperPearsonInterval(failed, total));
        within(wilsonInterval(failed, total), wilsonCorrectedInterval(failed, total));
        for (const name of names) {
          within(methods[name](failed, total), methods[name](failed, total, 0.99));
        }
      }),
      { seed: 12, numRuns: 100 },
    );
  });
});
