/** The rows of a logistic likelihood: probability, variance and residual of each, and the log-likelihood. */
import { exponential, logarithm } from "./exponential";
import { outcome, probability, residual, variance, weight } from "./memory";
import { fillPredictors } from "./predictor";

/** Fills the areas and gives the tile's log-likelihood, sum w [y eta - ln(1 + e^eta)]. */
export function logisticRows(rows: i32): f64 {
  fillPredictors(probability, rows);
  const one = f64x2.splat(1);
  let total = f64x2.splat(0);
  for (let at: usize = 0; at < <usize>(rows * 8); at += 16) {
    const eta = v128.load(probability + at);
    const small = exponential(f64x2.neg(f64x2.abs(eta)));
    const both = f64x2.add(one, small);
    const larger = f64x2.div(one, both);
    const smaller = f64x2.mul(small, larger);
    const isAbove = f64x2.ge(eta, f64x2.splat(0));
    const p = v128.bitselect(larger, smaller, isAbove);
    const y = v128.load(outcome + at);
    const w = v128.load(weight + at);
    const reached = f64x2.sub(f64x2.mul(y, eta), f64x2.max(eta, f64x2.splat(0)));
    total = f64x2.add(total, f64x2.mul(w, f64x2.sub(reached, logarithm(both))));
    v128.store(probability + at, p);
    v128.store(variance + at, f64x2.mul(w, f64x2.mul(smaller, larger)));
    v128.store(residual + at, f64x2.mul(w, f64x2.sub(y, p)));
  }
  return f64x2.extract_lane(total, 0) + f64x2.extract_lane(total, 1);
}
