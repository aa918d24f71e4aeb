/**
 * The standard deviation of a column, the root of the mean square about the mean, with divisor n: the unit
 * in which the steps of a fit are measured, not an estimate of a population's. 0 for a constant column and
 * for no rows.
 */
export function standardDeviation(column: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < column.length; i++) sum += column[i]!;
  const mean = sum / column.length;
  let squares = 0;
  for (let i = 0; i < column.length; i++) squares += (column[i]! - mean) ** 2;
  return column.length === 0 ? 0 : Math.sqrt(squares / column.length);
}
