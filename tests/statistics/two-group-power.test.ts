import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { clopperPearsonInterval } from "../../src/statistics/clopper-pearson-interval.ts";
import {
  casesWithoutFailure,
  enoughCases,
  whatCasesTell,
} from "../../src/statistics/enough-cases.ts";
import {
  exactCasesPerGroup,
  type TwoGroupTest,
  twoGroupPower,
} from "../../src/statistics/two-group-power.ts";
import { expectClose } from "./close-to.ts";
import { evenly } from "./even-numbers.ts";
import { readReference } from "./reference-data.ts";

const reference = readReference("two-group-power");
const tests: readonly TwoGroupTest[] = ["Fisher", "mid-P", "chi-square"];
const groups = (total: number, one: number, two: number) => ({
  first: { rate: one, total },
  second: { rate: two, total },
});

describe("the exact power of a comparison of two proportions", () => {
  it("agrees with R's tests counted over all tables", () => {
    for (const { first, second, test, power } of reference.power) {
      expectClose(twoGroupPower({ first, second }, { test }), power);
    }
    for (const { total, rates, power } of reference.large) {
      expectClose(twoGroupPower(groups(total, rates[0], rates[1])), power);
    }
  });

  it("by hand: 4 against 4 is told apart only by all against none, p = 2 / 70", () => {
    const both = 0.9 ** 4 * 0.9 ** 4 + 0.1 ** 4 * 0.1 ** 4;
    expectClose(twoGroupPower(groups(4, 0.1, 0.9)), both);
    expect(twoGroupPower(groups(3, 0.1, 0.9))).toBe(0);
    expectClose(twoGroupPower(groups(4, 0, 1)), 1);
  });

  it("is nothing where a group is empty or nobody fails, and refuses what is no rate", () => {
    expect(twoGroupPower({ first: { rate: 0.1, total: 0 }, second: { rate: 0.9, total: 9 } })).toBe(
      0,
    );
    for (const test of tests) {
      expect(twoGroupPower(groups(30, 0, 0), { test })).toBe(0);
      expect(twoGroupPower(groups(30, 1, 1), { test })).toBe(0);
    }
    expect(() => twoGroupPower(groups(30, 0.1, 1.1))).toThrow(/rate is 1.1/);
    expect(() => twoGroupPower(groups(2.5, 0.1, 0.2))).toThrow(/total is 2.5/);
  });

  it("does not depend on which group is first or what counts as failure; Fisher keeps its size", () => {
    const rate = evenly(0, 1);
    const group = fc.record({ rate, total: fc.integer({ min: 1, max: 40 }) });
    fc.assert(
      fc.property(group, group, fc.constantFrom(...tests), (first, second, test) => {
        const power = twoGroupPower({ first, second }, { test });
        const held = (of: typeof first) => ({ rate: 1 - of.rate, total: of.total });
        expectClose(twoGroupPower({ first: second, second: first }, { test }), power, 1e-8);
        expectClose(
          twoGroupPower({ first: held(first), second: held(second) }, { test }),
          power,
          1e-8,
        );
        const same = { first, second: { ...second, rate: first.rate } };
        const sizes = tests.map((name) => twoGroupPower(same, { test: name }));
        expect(sizes[0]!).toBeLessThanOrEqual(0.05 + 1e-12);
        expect(sizes[0]!).toBeLessThanOrEqual(sizes[1]! + 1e-12);
      }),
      { seed: 81, numRuns: 80 },
    );
  });

  it("gives the eyes per group that R's search gives", () => {
    for (const { rates, cases } of reference.needed) {
      expect(exactCasesPerGroup({ rates })).toBe(cases);
    }
    expect(exactCasesPerGroup({ rates: [0.1, 0.1001] })).toBeNull();
    expect(() => exactCasesPerGroup({ rates: [0.2, 0.2] })).toThrow(/expected two rates/);
  });
});

describe("what a number of cases can tell", () => {
  const design = { target: 0.1, worse: 0.2 };

  it("without a failure: ln 0.025 / ln 0.9, and about 3 / target at 0.05 (Hanley 1983)", () => {
    expect(casesWithoutFailure(0.1)).toBe(36);
    expect(casesWithoutFailure(0.5, 0.25)).toBe(2);
    for (const target of [0.01, 0.02, 0.05]) {
      const cases = casesWithoutFailure(target, 0.05);
      expect(Math.abs(cases / (3 / target) - 1)).toBeLessThan(0.03);
      // it is the first number whose one-sided exact upper limit is at most the target
      expect(clopperPearsonInterval(0, cases, 0.9)!.upper).toBeLessThanOrEqual(target);
      expect(clopperPearsonInterval(0, cases - 1, 0.9)!.upper).toBeGreaterThan(target);
    }
  });

  it("by hand: 2 cases at 10%: both failing is shown at 0.01, and noticed at 20% with 0.04", () => {
    const two = whatCasesTell(2, design);
    expect(two).toMatchObject({ failuresToShow: 2, canShowBetter: false, isEnough: false });
    expectClose(two.power, 0.04);
    const one = whatCasesTell(1, design);
    expect(one.failuresToShow).toBeNull();
    expectClose(one.power, 0);
    expect(whatCasesTell(0, design)).toMatchObject({ failuresToShow: null, isEnough: false });
  });

  it("is enough from the number that is said to be needed", () => {
    const { needed, withoutFailure } = enoughCases(design);
    expect(whatCasesTell(needed!.cases, design).isEnough).toBe(true);
    expect(whatCasesTell(needed!.cases - 1, design).isEnough).toBe(false);
    expect(whatCasesTell(withoutFailure, design).canShowBetter).toBe(true);
    expect(whatCasesTell(withoutFailure - 1, design).canShowBetter).toBe(false);
    expect(() => enoughCases({ target: 0.2, worse: 0.1 })).toThrow(/worse is 0.1/);
  });
});
