/**
 * X' diag(w) X and X' v over the rows of a tile, two rows at a time.
 *
 * Three columns are multiplied by the weights, then their dot products with three columns run over the
 * rows together: nine pairs of sums stay in registers. Rows are taken some hundred at a time, so that
 * what is read again is near. Only the upper triangle is summed.
 */
import { columnAt, product, residual, scaled, size, stride, sums } from "./memory";

const ROWS_AT_ONCE: i32 = 248;

/** Adds the tile's X' diag(w) X to the product, with the weights in the area at `weights`. */
export function addWeightedProduct(rows: i32, weights: usize): void {
  for (let from = 0; from < rows; from += ROWS_AT_ONCE) {
    const skip: usize = from * 8;
    const bytes: usize = min(ROWS_AT_ONCE, rows - from) * 8;
    for (let a = 0; a < size; a += 3) {
      for (let k = 0; k < 3; k++) {
        const column = columnAt(min(a + k, size - 1)) + skip;
        scale(scaled + <usize>k * stride, column, weights + skip, bytes);
      }
      if (a + 2 < size) sixProducts(a, skip, bytes);
      let b = a + 2 < size ? a + 3 : a;
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

/** Adds the products of the three scaled columns from `a` with the same three columns, each pair once. */
function sixProducts(a: i32, skip: usize, bytes: usize): void {
  const left = scaled;
  const middle = scaled + stride;
  const right = scaled + 2 * stride;
  const x = columnAt(a) + skip;
  const y = columnAt(a + 1) + skip;
  const z = columnAt(a + 2) + skip;
  let ax = f64x2.splat(0);
  let ay = ax;
  let az = ax;
  let by = ax;
  let bz = ax;
  let cz = ax;
  for (let at: usize = 0; at < bytes; at += 16) {
    const p = v128.load(left + at);
    const q = v128.load(middle + at);
    ax = f64x2.add(ax, f64x2.mul(p, v128.load(x + at)));
    let value = v128.load(y + at);
    ay = f64x2.add(ay, f64x2.mul(p, value));
    by = f64x2.add(by, f64x2.mul(q, value));
    value = v128.load(z + at);
    az = f64x2.add(az, f64x2.mul(p, value));
    bz = f64x2.add(bz, f64x2.mul(q, value));
    cz = f64x2.add(cz, f64x2.mul(v128.load(right + at), value));
  }
  addTo(cellAt(a, a), ax);
  addTo(cellAt(a, a + 1), ay);
  addTo(cellAt(a, a + 2), az);
  addTo(cellAt(a + 1, a + 1), by);
  addTo(cellAt(a + 1, a + 2), bz);
  addTo(cellAt(a + 2, a + 2), cz);
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
  addTo(cellAt(a, b), first);
  if (a + 1 < size) addTo(cellAt(a + 1, b), second);
  if (a + 2 < size) addTo(cellAt(a + 2, b), third);
}

function cellAt(row: i32, column: i32): usize {
  return product + (row * size + column) * 8;
}

function addTo(cell: usize, pair: v128): void {
  store<f64>(cell, load<f64>(cell) + f64x2.extract_lane(pair, 0) + f64x2.extract_lane(pair, 1));
}

/** Adds the tile's X' residual to the sums, four columns at a time, so that no sum waits for another. */
export function addColumnProducts(rows: i32): void {
  const bytes: usize = rows * 8;
  const last = size - 1;
  for (let c = 0; c < size; c += 4) {
    const first = columnAt(c);
    const second = columnAt(min(c + 1, last));
    const third = columnAt(min(c + 2, last));
    const fourth = columnAt(min(c + 3, last));
    let one = f64x2.splat(0);
    let two = one;
    let three = one;
    let four = one;
    for (let at: usize = 0; at < bytes; at += 16) {
      const value = v128.load(residual + at);
      one = f64x2.add(one, f64x2.mul(v128.load(first + at), value));
      two = f64x2.add(two, f64x2.mul(v128.load(second + at), value));
      three = f64x2.add(three, f64x2.mul(v128.load(third + at), value));
      four = f64x2.add(four, f64x2.mul(v128.load(fourth + at), value));
    }
    addTo(sums + c * 8, one);
    if (c + 1 < size) addTo(sums + (c + 1) * 8, two);
    if (c + 2 < size) addTo(sums + (c + 2) * 8, three);
    if (c + 3 < size) addTo(sums + (c + 3) * 8, four);
  }
}
