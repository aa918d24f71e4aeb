/**
 * Linear algebra for small symmetric positive semi-definite matrices (information and covariance
 * matrices), stored row by row in a Float64Array of size * size.
 *
 * Cholesky's decomposition that passes over a column whose remaining pivot is negligible: such a
 * column is a linear combination of those before it, and is reported rather than inverted (Healy,
 * Applied Statistics 1968;17:195).
 */
export interface Cholesky {
  readonly size: number;
  /** The lower triangular factor L, A = L L', rows and columns of dependent variables 0. */
  readonly factor: Float64Array;
  /** The positions that depend linearly on those before them. */
  readonly dependent: readonly number[];
}

/** Factorises `matrix`; a pivot under `tolerance` of its diagonal element counts as 0. */
export function cholesky(matrix: Float64Array, tolerance = 1e-10): Cholesky {
  const size = Math.round(Math.sqrt(matrix.length));
  const factor = new Float64Array(matrix.length);
  const dependent: number[] = [];
  for (let j = 0; j < size; j++) {
    const pivot = remainder(matrix, factor, { i: j, j, size });
    if (!(pivot > tolerance * Math.abs(matrix[j * size + j]!))) {
      dependent.push(j);
      continue;
    }
    const root = Math.sqrt(pivot);
    factor[j * size + j] = root;
    for (let i = j + 1; i < size; i++) {
      factor[i * size + j] = remainder(matrix, factor, { i, j, size }) / root;
    }
  }
  return { size, factor, dependent };
}

function remainder(
  matrix: Float64Array,
  factor: Float64Array,
  { i, j, size }: { i: number; j: number; size: number },
): number {
  let sum = matrix[i * size + j]!;
  for (let k = 0; k < j; k++) sum -= factor[i * size + k]! * factor[j * size + k]!;
  return sum;
}

/** The x with A x = b; elements of dependent variables are 0. */
export function solve({ size, factor }: Cholesky, b: ArrayLike<number>): Float64Array {
  const x = forwardSolve({ size, factor }, b);
  for (let i = size - 1; i >= 0; i--) {
    const pivot = factor[i * size + i]!;
    let sum = x[i]!;
    for (let k = i + 1; k < size; k++) sum -= factor[k * size + i]! * x[k]!;
    x[i] = pivot === 0 ? 0 : sum / pivot;
  }
  return x;
}

/** The x with L x = b, so that b' A^-1 b is the sum of squares of x. */
export function forwardSolve(
  { size, factor }: Pick<Cholesky, "size" | "factor">,
  b: ArrayLike<number>,
): Float64Array {
  const x = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    const pivot = factor[i * size + i]!;
    if (pivot === 0) continue;
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= factor[i * size + k]! * x[k]!;
    x[i] = sum / pivot;
  }
  return x;
}

/** The inverse of A, rows and columns of dependent variables 0. */
export function inverse(decomposition: Cholesky): Float64Array {
  const { size } = decomposition;
  const result = new Float64Array(size * size);
  const unit = new Float64Array(size);
  for (let j = 0; j < size; j++) {
    unit.fill(0);
    unit[j] = 1;
    if (!decomposition.dependent.includes(j)) result.set(solve(decomposition, unit), j * size);
  }
  return result;
}

/** b' A^- b, with a generalised inverse where A is singular; `rank` is the degrees of freedom. */
export function quadraticForm(
  matrix: Float64Array,
  b: ArrayLike<number>,
): { value: number; rank: number } {
  const decomposition = cholesky(matrix);
  const x = forwardSolve(decomposition, b);
  const value = x.reduce((sum, element) => sum + element * element, 0);
  return { value, rank: decomposition.size - decomposition.dependent.length };
}

/** ln det A from its factor; -Infinity when singular. */
export function logDeterminant({ size, factor }: Cholesky): number {
  let sum = 0;
  for (let j = 0; j < size; j++) sum += 2 * Math.log(factor[j * size + j]!);
  return sum;
}
