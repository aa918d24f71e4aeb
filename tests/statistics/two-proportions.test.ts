import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  scoreDifference,
  scoreOddsRatio,
  scoreRatio,
} from "../../src/statistics/miettinen-nurminen.ts";
import {
  type ComparisonEstimate,
  newcombeDifference,
} from "../../src/statistics/newcombe-difference.ts";
import { oddsRatio, riskRatio } from "../../src/statistics/ratio-estimates.ts";
import type { TwoByTwo } from "../../src/statistics/two-by-two.ts";
import { wilsonInterval } from "../../src/statistics/wilson-interval.ts";
import { expectClose, expectPrinted } from "./close-to.ts";
import { readReference } from "./reference-data.ts";
import { tableOf, tables } from "./two-by-two-tables.ts";

const reference = readReference("tables");
const limits = (interval: ComparisonEstimate | null) => [interval!.lower, interval!.upper];
const triple = (part: ComparisonEstimate | null) => [part!.estimate, ...limits(part)];
const swap = ({ first, second }: TwoByTwo) => ({ first: second, second: first });

describe("the difference of two proportions", () => {
  it("prints as in Newcombe, Stat Med 1998;17:873, table II, method 10", () => {
    const printed = [
      [56, 70, 48, 80, "0.0524", "0.3339"],
      [9, 10, 3, 10, "0.1705", "0.8090"],
      [5, 56, 0, 29, "-0.0381", "0.1926"],
      [0, 10, 0, 20, "-0.1611", "0.2775"],
      [0, 10, 0, 10, "-0.2775", "0.2775"],
    ] as const;
    for (const [x1, n1, x2, n2, lower, upper] of printed) {
      const difference = newcombeDifference(tableOf([x1, n1, x2, n2]))!;
      expectPrinted(difference.lower, lower);
      expectPrinted(difference.upper, upper);
    }
  });

  it("agrees with R: Newcombe 10 and 11, and the score interval by numerical likelihood", () => {
    for (const { table, method10, method11, score } of reference.differences) {
      expectClose(limits(newcombeDifference(tableOf(table))), method10);
      expectClose(limits(newcombeDifference(tableOf(table), { corrected: true })), method11);
      expectClose(limits(scoreDifference(tableOf(table))), score, 3e-6);
    }
  });

  it("keeps its digits where rates are tiny or next to all: R 4.2.2, likelihood slopes by uniroot", () => {
    const relative = (found: readonly number[], expected: readonly number[]) =>
      found.map((value, i) => value / expected[i]!);
    const rare = tableOf([2, 100_000, 9, 100_000]);
    const difference = [-1.53305191212014e-4, -6.08692418440012e-6];
    expectClose(relative(limits(scoreDifference(rare)), difference), [1, 1]);
    const ratio = [0.054149821908547, 0.911947991070343];
    expectClose(relative(limits(scoreRatio(rare)), ratio), [1, 1]);
    const odds = [0.0541440534094757, 0.911942541725995];
    expectClose(relative(limits(scoreOddsRatio(rare)), odds), [1, 1]);
    const [lower, upper] = limits(scoreDifference(tableOf([999_999, 1_000_000, 0, 196])));
    expectClose([lower!, (1 - upper!) / (1 - 0.999999823475547)], [0.980776449228939, 1], 1e-8);
    const nearlyAll = scoreOddsRatio(tableOf([1, 93_466_396, 93_466_395, 93_466_396]));
    const farOut = [8.60871143212556e-18, 1.52208838344173e-15];
    expectClose(relative(limits(nearlyAll), farOut), [1, 1], 1e-7);
    // all but one of the second group against none of the first: no difference can be under -1
    const most = scoreDifference(tableOf([0, 90_362_165, 90_362_164, 90_362_165]));
    expect(most!.lower).toBeLessThan(most!.estimate);
    expect(most!.lower).toBeGreaterThanOrEqual(-1);
  });

  it("with none failed has the limits of each group alone (Newcombe's case e)", () => {
    const difference = newcombeDifference(tableOf([0, 10, 0, 20]))!;
    expect(difference.lower).toBe(-wilsonInterval(0, 20)!.upper);
    expect(difference.upper).toBe(wilsonInterval(0, 10)!.upper);
  });

  it("is not estimable with an empty group and refuses impossible counts", () => {
    for (const estimate of [newcombeDifference, scoreDifference, scoreRatio, scoreOddsRatio]) {
      expect(estimate(tableOf([0, 0, 3, 9]))).toBeNull();
      expect(() => estimate(tableOf([4, 3, 3, 9]))).toThrow(/failed is 4 of a total of 3/);
    }
    expect(() => scoreDifference(tableOf([1, 3, 3, 9]), 0)).toThrow(/level/);
  });

  it("swapped groups, and successes for failures, negate and reverse the limits", () => {
    fc.assert(
      fc.property(tables, (table) => {
        for (const estimate of [newcombeDifference, scoreDifference]) {
          const [lower, upper] = limits(estimate(table));
          expectClose(limits(estimate(swap(table))), [-upper!, -lower!], 1e-7);
          const recoded = {
            first: { ...table.first, failed: table.first.total - table.first.failed },
            second: { ...table.second, failed: table.second.total - table.second.failed },
          };
          expectClose(limits(estimate(recoded)), [-upper!, -lower!], 1e-7);
          expect(lower! >= -1 && upper! <= 1 && lower! <= upper!).toBe(true);
        }
      }),
      { seed: 41, numRuns: 150 },
    );
  });
});

describe("the risk ratio and the odds ratio", () => {
  it("agree with R and with the score interval by numerical likelihood", () => {
    for (const { table, risk, odds, scoreRatio: ratio, scoreOdds } of reference.ratios) {
      expectClose(triple(riskRatio(tableOf(table))), risk);
      expectClose(triple(oddsRatio(tableOf(table))), odds);
      expectClose(limits(scoreRatio(tableOf(table))), ratio, 3e-6);
      expectClose(limits(scoreOddsRatio(tableOf(table))), scoreOdds, 3e-6);
    }
  });

  it("are null where a count of 0 leaves no variance; the score interval still answers", () => {
    const none = tableOf([5, 56, 0, 29]);
    expect(riskRatio(none)).toBeNull();
    expect(oddsRatio(none)).toBeNull();
    expect(oddsRatio(tableOf([10, 10, 3, 10]))).toBeNull();
    expect(scoreRatio(none)!.upper).toBe(Infinity);
    expect(scoreRatio(none)!.lower).toBeGreaterThan(0);
    expect(scoreOddsRatio(swap(none))!.lower).toBe(0);
    expect(scoreRatio(tableOf([0, 5, 0, 5]))).toBeNull();
    expect(scoreOddsRatio(tableOf([5, 5, 4, 4]))).toBeNull();
  });

  it("swapped groups invert them; the odds ratio inverts when successes are counted", () => {
    fc.assert(
      fc.property(tables, (table) => {
        for (const estimate of [riskRatio, oddsRatio, scoreRatio, scoreOddsRatio]) {
          const one = estimate(table);
          const other = estimate(swap(table));
          expect(other === null).toBe(one === null);
          if (one === null) continue;
          expectClose([1 / other!.upper, 1 / other!.lower], limits(one), 1e-6);
          expect(one.lower <= one.estimate && one.estimate <= one.upper).toBe(true);
        }
      }),
      { seed: 42, numRuns: 150 },
    );
  });

  it("score intervals of all three agree on whether there is no effect", () => {
    fc.assert(
      fc.property(tables, (table) => {
        const difference = scoreDifference(table)!;
        const ratio = scoreRatio(table);
        const odds = scoreOddsRatio(table);
        if (ratio === null || odds === null) return;
        expect(ratio.lower > 1).toBe(difference.lower > 0);
        expect(odds.lower > 1).toBe(difference.lower > 0);
        expect(odds.upper < 1).toBe(difference.upper < 0);
      }),
      { seed: 43, numRuns: 150 },
    );
  });
});
