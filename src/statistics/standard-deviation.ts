/**
 * The standard deviation of a column, the root of the mean square about the mean, with divisor n: the unit
 * in which the steps of a fit are measured, not an estimate of a population's. 0 for a constant column and
 * for no rows.
 */
import { squaresAbout, sumOf } from "./column-sums.ts";

/** The standard deviation, in the unit of the column. */
export function standardDeviation(column: Float64Array): number {
  if (column.length === 0) return 0;
  return Math.sqrt(squaresAbout(column, sumOf(column) / column.length) / column.length);
}
