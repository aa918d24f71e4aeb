/** The linear predictor of two rows: offset + X b. */
import { coefficients, columnAt, offset, size, stride } from "./memory";

/** Of the pair of rows that lies so many bytes into each area. */
export function predictorAt(at: usize): v128 {
  let sum = v128.load(offset + at);
  let column = columnAt(0) + at;
  for (let c: usize = 0; c < <usize>size; c++) {
    const coefficient = f64x2.splat(load<f64>(coefficients + c * 8));
    sum = f64x2.add(sum, f64x2.mul(v128.load(column), coefficient));
    column += stride;
  }
  return sum;
}
