/**
 * X' diag(w) X for a matrix given by columns: the cost of every Newton step of a regression.
 *
 * Each column is multiplied by the weights once, then four dot products at a time run over the rows,
 * which keeps their sums in registers (about twice as fast as one product at a time).
 */
export function weightedProduct(
  columns: readonly Float64Array[],
  weights: Float64Array,
): Float64Array {
  const size = columns.length;
  const product = new Float64Array(size * size);
  const scaled = new Float64Array(weights.length);
  for (let a = 0; a < size; a++) {
    const column = columns[a]!;
    for (let i = 0; i < scaled.length; i++) scaled[i] = weights[i]! * column[i]!;
    for (let b = a; b < size; b += 4) fourProducts(scaled, columns, { product, a, b });
  }
  for (let a = 0; a < size; a++) {
    for (let b = 0; b < a; b++) product[a * size + b] = product[b * size + a]!;
  }
  return product;
}

function fourProducts(
  scaled: Float64Array,
  columns: readonly Float64Array[],
  { product, a, b }: { product: Float64Array; a: number; b: number },
): void {
  const last = columns.length - 1;
  const one = columns[b]!;
  const two = columns[Math.min(b + 1, last)]!;
  const three = columns[Math.min(b + 2, last)]!;
  const four = columns[Math.min(b + 3, last)]!;
  let [s1, s2, s3, s4] = [0, 0, 0, 0];
  for (let i = 0; i < scaled.length; i++) {
    const value = scaled[i]!;
    s1 += value * one[i]!;
    s2 += value * two[i]!;
    s3 += value * three[i]!;
    s4 += value * four[i]!;
  }
  const row = a * columns.length;
  product[row + b] = s1;
  if (b + 1 <= last) product[row + b + 1] = s2;
  if (b + 2 <= last) product[row + b + 2] = s3;
  if (b + 3 <= last) product[row + b + 3] = s4;
}

/** X' v for a matrix given by columns. */
export function columnProducts(
  columns: readonly Float64Array[],
  values: Float64Array,
): Float64Array {
  return Float64Array.from(columns, (column) => {
    let sum = 0;
    for (let i = 0; i < column.length; i++) sum += column[i]! * values[i]!;
    return sum;
  });
}

/** X b for a matrix given by columns of `rows` elements. */
export function linearPredictor(
  columns: readonly Float64Array[],
  coefficients: ArrayLike<number>,
  rows: number,
): Float64Array {
  const predictor = new Float64Array(rows);
  columns.forEach((column, c) => {
    const coefficient = coefficients[c]!;
    if (coefficient === 0) return;
    for (let i = 0; i < rows; i++) predictor[i] = predictor[i]! + coefficient * column[i]!;
  });
  return predictor;
}
