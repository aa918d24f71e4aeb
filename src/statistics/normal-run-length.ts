/**
 * Expected run lengths of the CUSUM and of the EWMA chart for independent normal values with
 * standard deviation 1, by their integral equations on Gauss–Legendre nodes: the textbook standard
 * against which charts of other values are judged.
 *
 * CUSUM S = max(0, S + X - k), signal at S > h (Page 1954; Goel and Wu, Technometrics 1971;13:221):
 *   L(s) = 1 + L(0) Phi(k - s - mean) + integral over 0 to h of L(x) phi(x - s + k - mean)
 * EWMA Z = a X + (1 - a) Z, signal at |Z| > c = width sqrt(a / (2 - a)) (Crowder, Technometrics
 * 1987;29:401; Lucas and Saccucci 1990;32:1):
 *   L(z) = 1 + integral over -c to c of L(x) phi((x - (1 - a) z) / a - mean) / a.
 */
import { requireBetween } from "./argument-checks.ts";
import { addTo, bandIdentity, solveBand } from "./band-matrix.ts";
import { normalLowerTail } from "./distributions.ts";
import { gaussLegendre } from "./gauss-legendre.ts";

export interface NormalCusum {
  /** The reference value k, subtracted from each value. */
  readonly reference: number;
  /** The limit h, above 0. */
  readonly limit: number;
  /** The true mean; 0, in control, unless said. */
  readonly mean?: number;
}

const NODES = 100;

/** Expected run length of the one-sided chart (values above 0 drive it up), starting at 0. */
export function normalCusumRunLength({ reference, limit, mean = 0 }: NormalCusum): number {
  requireBetween("limit", limit, 0, Infinity);
  requireBetween("reference", reference, -Infinity, Infinity);
  requireBetween("mean", mean, -Infinity, Infinity);
  const { nodes, weights } = gaussLegendre(NODES, 0, limit);
  const points = [0, ...nodes];
  return solveAt(points, (from, j) => {
    const shift = reference - from - mean;
    return j === 0 ? normalLowerTail(shift) : weights[j - 1]! * density(points[j]! + shift);
  })[0]!;
}

/** Expected run length of two such charts, one for either direction, with the same limits. */
export function twoSidedCusumRunLength({ mean = 0, ...chart }: NormalCusum): number {
  const up = normalCusumRunLength({ ...chart, mean });
  const down = normalCusumRunLength({ ...chart, mean: -mean });
  return 1 / (1 / up + 1 / down);
}

export interface NormalEwma {
  /** The weight a of the newest value, from above 0 to 1. */
  readonly newest: number;
  /** Limits in standard deviations of the chart in the long run. */
  readonly width: number;
  readonly mean?: number;
}

/** Expected run length of the two-sided EWMA chart, starting at 0. */
export function normalEwmaRunLength({ newest, width, mean = 0 }: NormalEwma): number {
  requireBetween("newest", newest, 0, 1 + Number.EPSILON);
  requireBetween("width", width, 0, Infinity);
  requireBetween("mean", mean, -Infinity, Infinity);
  const limit = width * Math.sqrt(newest / (2 - newest));
  const { nodes, weights } = gaussLegendre(NODES, -limit, limit);
  const kernel = (from: number, j: number) =>
    (weights[j]! * density((nodes[j]! - (1 - newest) * from) / newest - mean)) / newest;
  const lengths = solveAt([...nodes], kernel);
  return lengths.reduce((sum, length, j) => sum + length * kernel(0, j), 1);
}

/** L at the points where L(point) = 1 + sum over j of kernel(point, j) L(points[j]). */
function solveAt(
  points: readonly number[],
  kernel: (from: number, j: number) => number,
): Float64Array {
  const size = points.length;
  const matrix = bandIdentity(size, size, size);
  points.forEach((from, row) => {
    for (let column = 0; column < size; column++) {
      addTo(matrix, { row, column }, -kernel(from, column));
    }
  });
  return solveBand(matrix, new Float64Array(size).fill(1));
}

function density(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
}
