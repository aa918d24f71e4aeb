/** The standard deviation of a column, with divisor n. */
export function standardDeviation(column: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < column.length; i++) sum += column[i]!;
  const mean = sum / column.length;
  let squares = 0;
  for (let i = 0; i < column.length; i++) squares += (column[i]! - mean) ** 2;
  return column.length === 0 ? 0 : Math.sqrt(squares / column.length);
}
