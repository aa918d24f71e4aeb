import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  cholesky,
  inverse,
  logDeterminant,
  quadraticForm,
  solve,
} from "../../src/statistics/symmetric-solve.ts";
import {
  columnProducts,
  linearPredictor,
  weightedProduct,
} from "../../src/statistics/weighted-product.ts";
import { expectClose } from "./close-to.ts";

const number = fc.integer({ min: -9, max: 9 });
const columnsOf = (count: number) =>
  fc.array(fc.array(number, { minLength: 12, maxLength: 12 }), {
    minLength: count,
    maxLength: count,
  });

describe("symmetric systems", () => {
  it("by hand: [[4, 2], [2, 3]]", () => {
    const matrix = Float64Array.of(4, 2, 2, 3);
    const decomposition = cholesky(matrix);
    expectClose(solve(decomposition, [8, 7]), [1.25, 1.5]);
    expectClose(inverse(decomposition), [3 / 8, -2 / 8, -2 / 8, 4 / 8]);
    expectClose(logDeterminant(decomposition), Math.log(8));
    expectClose(quadraticForm(matrix, [1, 1]).value, 3 / 8);
  });

  it("solve what they were made from", () => {
    fc.assert(
      fc.property(columnsOf(4), (list) => {
        const columns = list.map((column) => Float64Array.from(column));
        const matrix = weightedProduct(columns, new Float64Array(12).fill(1));
        const decomposition = cholesky(matrix);
        fc.pre(decomposition.dependent.length === 0);
        const x = [1, -2, 0.5, 3];
        const b = x.map((_, i) => x.reduce((sum, value, j) => sum + matrix[i * 4 + j]! * value, 0));
        // matrices may be ill-conditioned: what must fit is the right-hand side
        const found = solve(decomposition, b);
        const again = b.map((_, i) => found.reduce((s, v, j) => s + matrix[i * 4 + j]! * v, 0));
        expectClose(again, b, 1e-6);
      }),
      { seed: 6, numRuns: 100 },
    );
  });

  it("name what depends on columns before, and leave it out", () => {
    // the third column is the sum of the first two
    const columns = [
      [1, 2, 0],
      [0, 1, 5],
      [1, 3, 5],
    ].map((column) => Float64Array.from(column));
    const matrix = weightedProduct(columns, Float64Array.of(1, 1, 1));
    const decomposition = cholesky(matrix);
    expect(decomposition.dependent).toEqual([2]);
    expect(solve(decomposition, [1, 1, 2])[2]).toBe(0);
    expect(quadraticForm(matrix, [1, 1, 2]).rank).toBe(2);
    expect(cholesky(new Float64Array(4)).dependent).toEqual([0, 1]);
    expect(cholesky(new Float64Array(0)).size).toBe(0);
  });
});

describe("products of columns", () => {
  it("agree with plain sums for every number of columns", () => {
    const cases = fc
      .integer({ min: 1, max: 11 })
      .chain((count) => fc.tuple(columnsOf(count), columnsOf(1)));
    fc.assert(
      fc.property(cases, ([list, [weight]]) => {
        const columns = list.map((column) => Float64Array.from(column));
        const weights = Float64Array.from(weight!);
        const plain = list.flatMap((a) =>
          list.map((b) => a.reduce((sum, value, i) => sum + value * b[i]! * weight![i]!, 0)),
        );
        expect(Array.from(weightedProduct(columns, weights))).toEqual(plain.map((v) => v + 0));
        const sums = list.map((a) => a.reduce((sum, value, i) => sum + value * weight![i]!, 0));
        expect(Array.from(columnProducts(columns, weights))).toEqual(sums.map((v) => v + 0));
      }),
      { seed: 7, numRuns: 150 },
    );
  });

  it("the linear predictor adds columns times coefficients", () => {
    const columns = [Float64Array.of(1, 2), Float64Array.of(0, 5)];
    expect(Array.from(linearPredictor(columns, [3, -1], 2))).toEqual([3, 1]);
    expect(Array.from(linearPredictor([], [], 2))).toEqual([0, 0]);
  });
});
