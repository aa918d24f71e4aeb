import fc from "fast-check";
import { expect, test } from "vitest";
import { requireNumbers } from "../../src/statistics/argument-checks.ts";
import { squaresAbout, sumOf, sumOfProducts } from "../../src/statistics/column-sums.ts";
import { pickRows } from "../../src/statistics/pick-rows.ts";
import { seededRandom } from "../../src/statistics/seeded-random.ts";

// whole numbers of this size have exact sums in any order
const numbers = fc.array(fc.integer({ min: -1000, max: 1000 }), { maxLength: 11 });

test("sums side by side are the sums", () => {
  fc.assert(
    fc.property(numbers, fc.integer({ min: -5, max: 5 }), (list, centre) => {
      const values = Float64Array.from(list);
      const other = values.map((value, i) => value - 3 * i);
      const sum = (of: (value: number, i: number) => number) =>
        list.reduce((total, value, i) => total + of(value, i), 0);
      expect(sumOf(values)).toBe(sum((value) => value));
      expect(sumOfProducts(values, other)).toBe(sum((value, i) => value * other[i]!));
      expect(squaresAbout(values, centre)).toBe(sum((value) => (value - centre) ** 2));
    }),
    { seed: 12 },
  );
});

test("a sum shows any number that is not finite, wherever it stands", () => {
  for (const length of [1, 4, 7, 9]) {
    for (let at = 0; at < length; at++) {
      for (const value of [Number.NaN, Infinity, -Infinity]) {
        const column = new Float64Array(length).fill(1);
        column[at] = value;
        expect(Number.isFinite(sumOf(column))).toBe(false);
      }
    }
  }
});

test("a number that is not finite is refused by its place", () => {
  for (const value of [Number.NaN, Infinity, -Infinity]) {
    expect(() => requireNumbers("x", [0, value])).toThrow(`x[1] is ${value}`);
    expect(() => requireNumbers("x", Float64Array.of(0, value))).toThrow(`x[1] is ${value}`);
  }
  expect(() => requireNumbers("x", Float64Array.of(1e308, 1e308))).not.toThrow();
});

test("rows are picked in their order out of short and long columns, of any number", () => {
  for (const [total, kept] of [
    [0, 0],
    [7, 5],
    [70_000, 70_000],
    [131_072, 100],
    [300_001, 299_990],
  ] as const) {
    const { below } = seededRandom(total + 1);
    const order = Int32Array.from({ length: total }, (_, row) => row);
    for (let i = total - 1; i > 0; i--) {
      const other = below(i + 1);
      [order[i], order[other]] = [order[other]!, order[i]!];
    }
    const rows = order.subarray(0, kept);
    for (const width of [1, 4, 6]) {
      const columns = Array.from({ length: width }, (_, c) =>
        Float64Array.from({ length: total }, (__, row) => row + c / 8),
      );
      const picked = pickRows(columns, rows);
      expect(picked.length).toBe(width);
      picked.forEach((column, c) => {
        expect(column.length).toBe(kept);
        expect(column.every((value, i) => value === rows[i]! + c / 8)).toBe(true);
      });
    }
  }
});
