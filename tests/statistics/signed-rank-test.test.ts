import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type SignedRankOptions, signedRankTest } from "../../src/statistics/signed-rank-test.ts";
import { walshAverage } from "../../src/statistics/walsh-averages.ts";
import { expectClose } from "./close-to.ts";
import { readReference } from "./reference-data.ts";

const reference = readReference("signed-rank");
const wilcoxon: SignedRankOptions = { zeroDifferences: "Wilcoxon" };

describe("Wilcoxon's signed-rank test", () => {
  it("by hand: of 1, 2, -3 the positive ranks sum to 3, as rare as not", () => {
    // the eight sums are 0 1 2 3 3 4 5 6: five at most 3, five at least 3
    const test = signedRankTest([1, 2, -3])!;
    expect(test).toMatchObject({ used: 3, zeros: 0, statistic: 3, pValue: 1, isExact: true });
  });

  it("by hand: six differences of one sign have p 2/64, and limits at the ends", () => {
    const test = signedRankTest([1, 2, 3, 4, 5, 6])!;
    expect(test.pValue).toBe(2 / 64);
    expect(test.shift).toMatchObject({ estimate: 3.5, lower: 1, upper: 6, level: 0.95 });
  });

  it("agrees with R, on the published depression scores (Hollander and Wolfe 1973, p. 29)", () => {
    // the differences are those of R's help page; that the book prints P 0.020 one-sided is from memory
    const test = signedRankTest(reference.depression.differences)!;
    expect(test.statistic).toBe(5);
    expectClose(test.pValue, 2 * 0.01953125);
    for (const known of [reference.depression, ...reference.exact]) expectLike(known, wilcoxon);
  });

  it("agrees with R's normal approximation with ties, zeros and continuity correction", () => {
    for (const { differences, statistic, pValue } of reference.normal) {
      const test = signedRankTest(differences, wilcoxon)!;
      expect(test.isExact).toBe(false);
      expect(test.statistic).toBe(statistic);
      expectClose(test.pValue, pValue);
    }
  });

  it("takes ties and zeros exactly, by either treatment of zeros", () => {
    for (const [treatment, known] of Object.entries({
      Pratt: reference.pratt,
      Wilcoxon: reference.wilcoxon,
    })) {
      const options = { zeroDifferences: treatment } as SignedRankOptions;
      const test = signedRankTest(known.differences, options)!;
      expect(test).toMatchObject({ statistic: known.statistic, used: 11, zeros: 2 });
      expectClose(test.pValue, known.pValue);
    }
  });

  it("has the median of all averages of two as its estimate, and two of them as limits", () => {
    const { differences, estimate, limits, narrow } = reference.averages;
    const { shift } = signedRankTest(differences)!;
    expectClose([shift.estimate, shift.lower, shift.upper], [estimate, ...limits]);
    const at80 = signedRankTest(differences, { level: 0.8 })!.shift;
    expectClose([at80.lower, at80.upper], narrow);
  });

  it("sees decimals that differ by rounding alone as ties, and as zeros", () => {
    const before = [0.3, 0.7, 1.2, 0.5];
    const after = [0.1, 0.5, 1.2, 0.8];
    const rounded = signedRankTest(before.map((value, i) => after[i]! - value))!;
    const plain = signedRankTest([-2, -2, 0, 3])!;
    expect(rounded).toMatchObject({ statistic: plain.statistic, used: 3, zeros: 1 });
    expect(rounded.pValue).toBe(plain.pValue);
  });

  it("is turned about by a change of sign, unmoved by a change of unit, and follows a shift", () => {
    const list = fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(list, (differences) => {
        const plain = signedRankTest(differences)!;
        const turned = signedRankTest(differences.map((d) => -d))!;
        expectClose(turned.pValue, plain.pValue, 1e-12);
        expect(turned.shift.estimate + plain.shift.estimate).toBeCloseTo(0, 12);
        const scaled = signedRankTest(differences.map((d) => d / 8))!;
        expect(scaled.pValue).toBe(plain.pValue);
        expect(scaled.shift.lower).toBe(plain.shift.lower / 8);
        const moved = signedRankTest(differences.map((d) => d + 16))!;
        expect(moved.shift.estimate).toBeCloseTo(plain.shift.estimate + 16, 12);
        expect(plain.shift.lower).toBeLessThanOrEqual(plain.shift.estimate);
        expect(plain.shift.estimate).toBeLessThanOrEqual(plain.shift.upper);
      }),
      { seed: 91, numRuns: 200 },
    );
  });

  it("defines none, one, all zero and all tied, and refuses a missing difference by row", () => {
    expect(signedRankTest([])).toBeNull();
    const one = signedRankTest([0.2])!;
    expect(one).toMatchObject({ statistic: 1, pValue: 1 });
    expect(one.shift).toMatchObject({ estimate: 0.2, lower: -Infinity, upper: Infinity });
    const zero = signedRankTest([0, 0, 0, 0, 0, 0, 0])!;
    expect(zero).toMatchObject({ used: 0, zeros: 7, statistic: 0, pValue: 1 });
    expect(zero.shift).toMatchObject({ estimate: 0, lower: 0, upper: 0 });
    const tied = signedRankTest(new Array(8).fill(0.3))!;
    expect(tied).toMatchObject({ statistic: 36, pValue: 2 / 256 });
    expect(tied.shift).toMatchObject({ estimate: 0.3, lower: 0.3, upper: 0.3 });
    const many = signedRankTest(new Array(200).fill(0))!;
    expect(many).toMatchObject({ used: 0, pValue: 1 });
    expect(() => signedRankTest([1, Number.NaN])).toThrow("differences[1] is NaN");
    expect(() => signedRankTest([1], { zeroDifferences: "none" as never })).toThrow("is none");
    expect(() => signedRankTest([1], { level: 1 })).toThrow("level is 1");
  });
});

describe("Walsh averages by rank", () => {
  it("are those of the sorted list of all of them", () => {
    const value = fc.oneof(
      fc.integer({ min: -9, max: 9 }),
      fc.double({ min: -1, max: 1, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 15 }), (list) => {
        const ordered = Float64Array.from(list).sort();
        const all = list.flatMap((a, i) => list.slice(i).map((b) => (a + b) / 2));
        all.sort((a, b) => a - b);
        const found = all.map((_, rank) => walshAverage(ordered, rank + 1));
        all.forEach((average, rank) => {
          expect(Math.abs(found[rank]! - average)).toBeLessThan(1e-12);
        });
      }),
      { seed: 92, numRuns: 200 },
    );
  });
});

function expectLike(
  known: Record<"statistic" | "pValue" | "estimate" | "lower" | "upper", number> & {
    differences: number[];
  },
  options: SignedRankOptions,
): void {
  const { statistic, pValue, shift } = signedRankTest(known.differences, options)!;
  expect(statistic).toBe(known.statistic);
  expectClose(pValue, known.pValue);
  expectClose(shift.estimate, known.estimate);
  // of six differences R gives the ends with a warning, at the level that they have
  expectClose([shift.lower, shift.upper], [known.lower, known.upper]);
}
