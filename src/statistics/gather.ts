/**
 * Picking rows of a column into a new typed column. Plain loops: the mapping forms of the typed arrays'
 * `from` walk an iterator and are some ten times slower, which shows at hundreds of thousands of rows.
 */

/** The values at the given rows, in their order. */
export function gather(values: ArrayLike<number>, rows: ArrayLike<number>): Float64Array {
  const picked = new Float64Array(rows.length);
  for (let i = 0; i < picked.length; i++) picked[i] = values[rows[i]!]!;
  return picked;
}

/** The same for whole numbers that fit 32 bits. */
export function gatherWhole(values: ArrayLike<number>, rows: ArrayLike<number>): Int32Array {
  const picked = new Int32Array(rows.length);
  for (let i = 0; i < picked.length; i++) picked[i] = values[rows[i]!]!;
  return picked;
}

/** The product of two columns, element by element. */
export function multiplied(one: Float64Array, other: Float64Array): Float64Array {
  const product = new Float64Array(one.length);
  for (let i = 0; i < product.length; i++) product[i] = one[i]! * other[i]!;
  return product;
}

/** The sum of two columns, element by element. */
export function added(one: Float64Array, other: Float64Array): Float64Array {
  const sum = new Float64Array(one.length);
  for (let i = 0; i < sum.length; i++) sum[i] = one[i]! + other[i]!;
  return sum;
}

/** 0, 1, ..., length - 1. */
export function rowNumbers(length: number): Int32Array {
  const rows = new Int32Array(length);
  for (let i = 0; i < length; i++) rows[i] = i;
  return rows;
}
