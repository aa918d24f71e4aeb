/** The relative hazards of proportional hazards, w exp(X b), and their sums over runs of rows. */
import { exponential } from "./exponential";
import { columnAt, ends, probability, runSums, size, stride, weight } from "./memory";
import { fillPredictors } from "./predictor";

/** Fills the area of probabilities with each row's weight times exp of its linear predictor. */
export function riskRows(rows: i32): void {
  fillPredictors(probability, rows);
  for (let at: usize = 0; at < <usize>(rows * 8); at += 16) {
    const risk = f64x2.mul(v128.load(weight + at), exponential(v128.load(probability + at)));
    v128.store(probability + at, risk);
  }
}

/**
 * Sums of risk times each column over so many neighbouring runs of rows, of which `ends` holds the ends: of
 * column c and run k at position c * runs + k. Four columns at a time, so that no sum waits for another.
 */
export function sumRuns(runs: i32): void {
  const last = size - 1;
  for (let c = 0; c < size; c += 4) {
    const first = columnAt(c);
    const second = columnAt(min(c + 1, last));
    const third = columnAt(min(c + 2, last));
    const fourth = columnAt(min(c + 3, last));
    const into = runSums + c * runs * 8;
    let at: usize = 0;
    for (let k = 0; k < runs; k++) {
      const end: usize = load<i32>(ends + k * 4) * 8;
      let one = f64x2.splat(0);
      let other = one;
      for (; at < end; at += 8) {
        const risk = v128.load_splat<f64>(probability + at);
        const low = f64x2.replace_lane(v128.load64_zero(first + at), 1, load<f64>(second + at));
        const high = f64x2.replace_lane(v128.load64_zero(third + at), 1, load<f64>(fourth + at));
        one = f64x2.add(one, f64x2.mul(risk, low));
        other = f64x2.add(other, f64x2.mul(risk, high));
      }
      const cell = into + k * 8;
      store<f64>(cell, f64x2.extract_lane(one, 0));
      if (c + 1 < size) store<f64>(cell + runs * 8, f64x2.extract_lane(one, 1));
      if (c + 2 < size) store<f64>(cell + runs * 16, f64x2.extract_lane(other, 0));
      if (c + 3 < size) store<f64>(cell + runs * 24, f64x2.extract_lane(other, 1));
    }
  }
}
