/**
 * Products with a matrix X given by columns: X' diag(w) X, the cost of every Newton step of a
 * regression, X' v and X b.
 *
 * The first is by compiled loops where there are any (`kernels/`), else by plain ones that do the same.
 * Three columns at a time are multiplied by the weights, then their dot products with three columns run
 * over the rows together: nine sums stay in registers and each value read serves three of them, which is
 * some three times as fast as one product after another. Rows are taken some thousand at a time, so that
 * what was multiplied stays near the processor. Only the upper triangle is summed.
 */
import { tiledProducts } from "./kernels/tiled-product.ts";

const TILE = 2048;

type Three = readonly [Float64Array, Float64Array, Float64Array];

/** X' diag(w) X, row by row, for columns as long as the weights. */
export function weightedProduct(
  columns: readonly Float64Array[],
  weights: Float64Array,
): Float64Array {
  return weightedProducts(columns, [weights])[0]!;
}

/** The same for each of several columns of weights. */
export function weightedProducts(
  columns: readonly Float64Array[],
  weights: readonly Float64Array[],
): Float64Array[] {
  const tiled = tiledProducts(columns, weights);
  if (tiled === undefined) return weights.map((each) => plainProduct(columns, each));
  for (const product of tiled) mirror(product, columns.length);
  return tiled;
}

/** X' diag(w) X without the compiled loops. */
export function plainProduct(
  columns: readonly Float64Array[],
  weights: Float64Array,
): Float64Array {
  const size = columns.length;
  const product = new Float64Array(size * size);
  const scaled: Three = [new Float64Array(TILE), new Float64Array(TILE), new Float64Array(TILE)];
  for (let from = 0; from < weights.length; from += TILE) {
    const rows = { from, to: Math.min(from + TILE, weights.length) };
    for (let a = 0; a < size; a += 3) {
      const left = threeFrom(a, size);
      for (let k = 0; k < 3; k++) scale(scaled[k]!, columns[left[k]!]!, { weights, ...rows });
      let b = a;
      for (; b + 2 < size; b += 3) {
        const three: Three = [columns[b]!, columns[b + 1]!, columns[b + 2]!];
        const right = [b, b + 1, b + 2];
        addProducts(product, nineProducts(scaled, three, rows), { left, right, size });
      }
      for (; b < size; b++) {
        const sums = threeProducts(scaled, columns[b]!, rows);
        addProducts(product, sums, { left, right: [b], size });
      }
    }
  }
  mirror(product, size);
  return product;
}

/** Three neighbouring positions; the last again where there are fewer. */
function threeFrom(start: number, size: number): readonly [number, number, number] {
  return [start, Math.min(start + 1, size - 1), Math.min(start + 2, size - 1)];
}

function scale(
  into: Float64Array,
  column: Float64Array,
  { weights, from, to }: { weights: Float64Array; from: number; to: number },
): void {
  for (let i = from; i < to; i++) into[i - from] = weights[i]! * column[i]!;
}

/** The dot products of three columns, which hold the given rows alone, with three others. */
function nineProducts(
  scaled: Three,
  others: Three,
  { from, to }: { from: number; to: number },
): readonly number[] {
  const a = scaled[0];
  const b = scaled[1];
  const c = scaled[2];
  const x = others[0];
  const y = others[1];
  const z = others[2];
  let [ax, ay, az, bx, by, bz, cx, cy, cz] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (let i = from; i < to; i++) {
    const p = a[i - from]!;
    const q = b[i - from]!;
    const r = c[i - from]!;
    ax += p * x[i]!;
    bx += q * x[i]!;
    cx += r * x[i]!;
    ay += p * y[i]!;
    by += q * y[i]!;
    cy += r * y[i]!;
    az += p * z[i]!;
    bz += q * z[i]!;
    cz += r * z[i]!;
  }
  return [ax, ay, az, bx, by, bz, cx, cy, cz];
}

/** The dot products of three columns, which hold the given rows alone, with one other. */
function threeProducts(
  three: Three,
  x: Float64Array,
  { from, to }: { from: number; to: number },
): readonly number[] {
  const a = three[0];
  const b = three[1];
  const c = three[2];
  let [ax, bx, cx] = [0, 0, 0];
  for (let i = from; i < to; i++) {
    const value = x[i]!;
    ax += a[i - from]! * value;
    bx += b[i - from]! * value;
    cx += c[i - from]! * value;
  }
  return [ax, bx, cx];
}

interface Places {
  readonly left: readonly number[];
  readonly right: readonly number[];
  readonly size: number;
}

/** Adds each product to its cell, once where a position on the left stands twice. */
function addProducts(
  product: Float64Array,
  sums: readonly number[],
  { left, right, size }: Places,
): void {
  for (let k = 0; k < 3 && left[k] !== left[k - 1]; k++) {
    for (let l = 0; l < right.length; l++) {
      const cell = left[k]! * size + right[l]!;
      product[cell] = product[cell]! + sums[right.length * k + l]!;
    }
  }
}

/** Copies the upper half of a square matrix into the lower, in place. */
export function mirror(matrix: Float64Array, size: number): void {
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < row; column++) {
      matrix[row * size + column] = matrix[column * size + row]!;
    }
  }
}

/** X' v for a matrix given by columns. */
export function columnProducts(
  columns: readonly Float64Array[],
  values: Float64Array,
): Float64Array {
  const size = columns.length;
  const products = new Float64Array(size);
  for (let c = 0; c < size; c += 3) {
    const [x, y, z] = threeFrom(c, size);
    const three: Three = [columns[x]!, columns[y]!, columns[z]!];
    products.set(
      threeProducts(three, values, { from: 0, to: values.length }).slice(0, size - c),
      c,
    );
  }
  return products;
}

/** X b for a matrix given by columns of `rows` elements. */
export function linearPredictor(
  columns: readonly Float64Array[],
  coefficients: ArrayLike<number>,
  rows: number,
): Float64Array {
  const predictor = new Float64Array(rows);
  const terms = columns
    .map((column, c) => ({ column, coefficient: coefficients[c]! }))
    .filter(({ coefficient }) => coefficient !== 0);
  for (let c = 0; c + 2 < terms.length; c += 3) addThree(predictor, terms.slice(c, c + 3));
  for (let c = terms.length - (terms.length % 3); c < terms.length; c++) {
    const { column, coefficient } = terms[c]!;
    for (let i = 0; i < rows; i++) predictor[i] = predictor[i]! + coefficient * column[i]!;
  }
  return predictor;
}

interface Term {
  readonly column: Float64Array;
  readonly coefficient: number;
}

function addThree(predictor: Float64Array, terms: readonly Term[]): void {
  const [x, y, z] = terms.map((term) => term.column) as unknown as Three;
  const [a, b, c] = terms.map((term) => term.coefficient) as [number, number, number];
  for (let i = 0; i < predictor.length; i++) {
    predictor[i] = predictor[i]! + a * x[i]! + b * y[i]! + c * z[i]!;
  }
}
