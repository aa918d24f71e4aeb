/**
 * Linear equations whose matrix has elements only near its diagonal, by Gaussian elimination.
 *
 * There is no exchange of rows: it is meant for I - Q with Q the transitions between the states
 * of a Markov chain that are left in the end, where elimination keeps its accuracy without (such
 * a matrix is diagonally dominant; Grassmann, Taksar and Heyman, Operations Research
 * 1985;33:1107).
 */
export interface BandMatrix {
  readonly size: number;
  /** How many places left and right of the diagonal may hold something. */
  readonly below: number;
  readonly above: number;
  /** Row by row, below + 1 + above elements each, the diagonal at place `below`. */
  readonly values: Float64Array;
}

/** An identity matrix with room for a band. */
export function bandIdentity(size: number, below: number, above: number): BandMatrix {
  const left = Math.min(below, size - 1);
  const right = Math.min(above, size - 1);
  const width = left + 1 + right;
  const values = new Float64Array(size * width);
  for (let i = 0; i < size; i++) values[i * width + left] = 1;
  return { size, below: left, above: right, values };
}

/** Adds to an element that lies within the band. */
export function addTo(matrix: BandMatrix, place: { row: number; column: number }, value: number) {
  const width = matrix.below + 1 + matrix.above;
  const at = place.row * width + place.column - place.row + matrix.below;
  matrix.values[at] = matrix.values[at]! + value;
}

/** The x with A x = b. The matrix and b are overwritten; x is returned in b's place. */
export function solveBand(matrix: BandMatrix, b: Float64Array): Float64Array {
  for (let k = 0; k < matrix.size; k++) eliminate(matrix, b, k);
  const { size, below, above, values } = matrix;
  const width = below + 1 + above;
  for (let i = size - 1; i >= 0; i--) {
    let sum = b[i]!;
    const shift = i * width - i + below;
    const last = Math.min(size - 1, i + above);
    for (let j = i + 1; j <= last; j++) sum -= values[shift + j]! * b[j]!;
    b[i] = sum / values[shift + i]!;
  }
  return b;
}

/** Clears column k under the diagonal. */
function eliminate({ size, below, above, values }: BandMatrix, b: Float64Array, k: number): void {
  const width = below + 1 + above;
  const pivotShift = k * width - k + below;
  const pivot = values[pivotShift + k]!;
  const lastRow = Math.min(size - 1, k + below);
  const lastColumn = Math.min(size - 1, k + above);
  for (let i = k + 1; i <= lastRow; i++) {
    const shift = i * width - i + below;
    const factor = values[shift + k]! / pivot;
    if (factor === 0) continue;
    for (let j = k; j <= lastColumn; j++) {
      values[shift + j] = values[shift + j]! - factor * values[pivotShift + j]!;
    }
    b[i] = b[i]! - factor * b[k]!;
  }
}
