/** The linear predictor offset + X b of the rows of a tile, a few columns at a time. */
import { coefficients, columnAt, offset, size, stride } from "./memory";

/** Fills the area at `into` with the predictors of so many rows. */
export function fillPredictors(into: usize, rows: i32): void {
  const bytes: usize = rows * 8;
  const tail = size % 4;
  for (let c = 0; c < tail; c++) addColumn(into, c, bytes);
  for (let c = tail; c < size; c += 4) addFour(into, c, bytes);
}

/** The first column is added to the offsets, the others to what is there. */
function addColumn(into: usize, c: i32, bytes: usize): void {
  const from = c == 0 ? offset : into;
  const column = columnAt(c);
  const b = coefficientAt(c);
  for (let at: usize = 0; at < bytes; at += 16) {
    const product = f64x2.mul(v128.load(column + at), b);
    v128.store(into + at, f64x2.add(v128.load(from + at), product));
  }
}

function addFour(into: usize, c: i32, bytes: usize): void {
  const from = c == 0 ? offset : into;
  const first = columnAt(c);
  const second = first + stride;
  const third = second + stride;
  const fourth = third + stride;
  const b1 = coefficientAt(c);
  const b2 = coefficientAt(c + 1);
  const b3 = coefficientAt(c + 2);
  const b4 = coefficientAt(c + 3);
  for (let at: usize = 0; at < bytes; at += 16) {
    let sum = v128.load(from + at);
    sum = f64x2.add(sum, f64x2.mul(v128.load(first + at), b1));
    sum = f64x2.add(sum, f64x2.mul(v128.load(second + at), b2));
    sum = f64x2.add(sum, f64x2.mul(v128.load(third + at), b3));
    sum = f64x2.add(sum, f64x2.mul(v128.load(fourth + at), b4));
    v128.store(into + at, sum);
  }
}

function coefficientAt(c: i32): v128 {
  return f64x2.splat(load<f64>(coefficients + c * 8));
}
