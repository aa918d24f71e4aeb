/**
 * The robust ("sandwich") covariance of regression coefficients with clusters: B C B with B the
 * model-based covariance and C the sum over clusters of the outer products of summed score residuals
 * (Huber 1967; Liang and Zeger 1986; Lin and Wei 1989). No small-sample factor is applied.
 */
import type { GroupCodes } from "./group-codes.ts";
import { weightedProduct } from "./weighted-product.ts";

/** The covariance from score residuals given by columns, one element per row. */
export function clusteredCovariance(
  residuals: readonly Float64Array[],
  { labels, codes }: GroupCodes,
  covariance: Float64Array,
): Float64Array {
  const sums = residuals.map((column) => {
    const byCluster = new Float64Array(labels.length);
    for (let row = 0; row < column.length; row++) {
      const cluster = codes[row]!;
      byCluster[cluster] = byCluster[cluster]! + column[row]!;
    }
    return byCluster;
  });
  const middle = weightedProduct(sums, new Float64Array(labels.length).fill(1));
  const size = residuals.length;
  return multiply(multiply(covariance, middle, size), covariance, size);
}

function multiply(a: Float64Array, b: Float64Array, size: number): Float64Array {
  return a.map((_, cell) => {
    const row = Math.floor(cell / size) * size;
    const column = cell % size;
    let sum = 0;
    for (let k = 0; k < size; k++) sum += a[row + k]! * b[k * size + column]!;
    return sum;
  });
}
