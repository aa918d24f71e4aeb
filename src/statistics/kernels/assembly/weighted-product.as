/**
 * X' diag(w) X and X' v over the rows of a tile, two rows at a time.
 *
 * Three columns are multiplied by the weights, then their dot products with three columns run over the
 * rows together: nine pairs of sums stay in registers. Rows are taken some hundred at a time, so that
 * what is read again is near. Only the upper triangle is summed.
 */
import { columnAt, product, residual, scaled, size, stride, sums, weight } from "./memory";

const ROWS_AT_ONCE: i32 = 256;

/** Adds the tile's X' diag(weight) X to the product. */
export function addWeightedProduct(rows: i32): void {
  for (let from = 0; from < rows; from += ROWS_AT_ONCE) {
    const skip: usize = from * 8;
    const bytes: usize = min(ROWS_AT_ONCE, rows - from) * 8;
    for (let a = 0; a < size; a += 3) {
      for (let k = 0; k < 3; k++) {
        const column = columnAt(min(a + k, size - 1)) + skip;
        scale(scaled + <usize>k * stride, column, weight + skip, bytes);
      }
      let b = a;
      for (; b + 2 < size; b += 3) nineProducts(a, b, skip, bytes);
      for (; b < size; b++) threeProducts(a, b, skip, bytes);
    }
  }
}

function scale(into: usize, column: usize, by: usize, bytes: usize): void {
  for (let at: usize = 0; at < bytes; at += 16) {
    v128.store(into + at, f64x2.mul(v128.load(column + at), v128.load(by + at)));
  }
}

/** Adds the products of the three scaled columns from `a` with the three columns from `b`. */
function nineProducts(a: i32, b: i32, skip: usize, bytes: usize): void {
  const left = scaled;
  const middle = scaled + stride;
  const right = scaled + 2 * stride;
  const x = columnAt(b) + skip;
  const y = columnAt(b + 1) + skip;
  const z = columnAt(b + 2) + skip;
  let ax = f64x2.splat(0);
  let ay = ax;
  let az = ax;
  let bx = ax;
  let by = ax;
  let bz = ax;
  let cx = ax;
  let cy = ax;
  let cz = ax;
  for (let at: usize = 0; at < bytes; at += 16) {
    const p = v128.load(left + at);
    const q = v128.load(middle + at);
    const r = v128.load(right + at);
    let value = v128.load(x + at);
    ax = f64x2.add(ax, f64x2.mul(p, value));
    bx = f64x2.add(bx, f64x2.mul(q, value));
    cx = f64x2.add(cx, f64x2.mul(r, value));
    value = v128.load(y + at);
    ay = f64x2.add(ay, f64x2.mul(p, value));
    by = f64x2.add(by, f64x2.mul(q, value));
    cy = f64x2.add(cy, f64x2.mul(r, value));
    value = v128.load(z + at);
    az = f64x2.add(az, f64x2.mul(p, value));
    bz = f64x2.add(bz, f64x2.mul(q, value));
    cz = f64x2.add(cz, f64x2.mul(r, value));
  }
  addThree(a, b, ax, bx, cx);
  addThree(a, b + 1, ay, by, cy);
  addThree(a, b + 2, az, bz, cz);
}

/** Adds the products of the three scaled columns from `a` with column `b`. */
function threeProducts(a: i32, b: i32, skip: usize, bytes: usize): void {
  const x = columnAt(b) + skip;
  let ax = f64x2.splat(0);
  let bx = ax;
  let cx = ax;
  for (let at: usize = 0; at < bytes; at += 16) {
    const value = v128.load(x + at);
    ax = f64x2.add(ax, f64x2.mul(v128.load(scaled + at), value));
    bx = f64x2.add(bx, f64x2.mul(v128.load(scaled + stride + at), value));
    cx = f64x2.add(cx, f64x2.mul(v128.load(scaled + 2 * stride + at), value));
  }
  addThree(a, b, ax, bx, cx);
}

/** Adds to column `b` of the product in the rows from `a`, as far as there are. */
function addThree(a: i32, b: i32, first: v128, second: v128, third: v128): void {
  addTo(product + (a * size + b) * 8, first);
  if (a + 1 < size) addTo(product + ((a + 1) * size + b) * 8, second);
  if (a + 2 < size) addTo(product + ((a + 2) * size + b) * 8, third);
}

function addTo(cell: usize, pair: v128): void {
  store<f64>(cell, load<f64>(cell) + f64x2.extract_lane(pair, 0) + f64x2.extract_lane(pair, 1));
}

/** Adds the tile's X' residual to the sums. */
export function addColumnProducts(rows: i32): void {
  const bytes: usize = rows * 8;
  for (let c = 0; c < size; c++) {
    const column = columnAt(c);
    let sum = f64x2.splat(0);
    for (let at: usize = 0; at < bytes; at += 16) {
      sum = f64x2.add(sum, f64x2.mul(v128.load(column + at), v128.load(residual + at)));
    }
    addTo(sums + c * 8, sum);
  }
}
