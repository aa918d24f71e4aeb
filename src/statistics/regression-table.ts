/**
 * The coefficients of a fitted regression as a table: estimate, standard error from the inverse of the
 * information, z, the two-sided normal p and Wald's limits, estimate -+ z(level) error. Where there are
 * clusters the robust error takes the place of the other in z, p and limits (`cluster-sums.ts`). Aliased
 * covariates keep their place, with NaN for their numbers and 0 in the covariance. A coefficient that
 * moves without end has no robust error (NaN): the residuals that it is made of vanish out there, and a
 * tiny error would pass for a strong effect. The model's own error grows, and says rightly that z is 0.
 * Where the robust error vanishes beside the model's (a single cluster, or residuals that cancel within
 * each), z, p and limits are by the model's own: a certainty that is none would be shown.
 */

import { normalDeviate, normalTwoSided } from "./distributions.ts";
import type { Interval } from "./interval.ts";

export interface ChiSquare {
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
}

export interface Coefficient {
  readonly name: string;
  /** On the log scale; NaN when the covariate is aliased. */
  readonly estimate: number;
  readonly standardError: number;
  /** From clusters; null without them. */
  readonly robustStandardError: number | null;
  /** The estimate over its (robust, if there is one) standard error, p and Wald limits. */
  readonly z: number;
  readonly pValue: number;
  readonly lower: number;
  readonly upper: number;
}

export interface TableSource {
  readonly names: readonly string[];
  readonly isUsed: readonly boolean[];
  readonly fit: { readonly coefficients: Float64Array; readonly infinite: readonly number[] };
  readonly covariance: Float64Array;
  readonly robust: Float64Array | null;
  readonly level: number;
}

/** A robust error this small beside the model's own is what rounding leaves of none. */
const UNSEEN = 1e-6;

/** Puts estimates back in the order of all names, with NaN for the aliased ones. */
export function describeCoefficients(source: TableSource) {
  const { names, isUsed, fit, level } = source;
  const usedNames = names.filter((_, c) => isUsed[c]);
  let next = 0;
  const position = isUsed.map((used) => (used ? next++ : -1));
  return {
    coefficients: names.map((name, c) => describe(name, position[c]!, source)),
    covariance: spreadOut(source.covariance, position),
    robustCovariance: source.robust === null ? null : spreadOut(source.robust, position),
    aliased: names.filter((_, c) => !isUsed[c]),
    infinite: fit.infinite.map((j) => usedNames[j]!),
    level,
  };
}

function describe(name: string, position: number, source: TableSource): Coefficient {
  const { fit, covariance, robust, level } = source;
  const size = fit.coefficients.length;
  const errorOf = (matrix: Float64Array) =>
    position < 0 ? Number.NaN : Math.sqrt(matrix[position * size + position]!);
  const estimate = position < 0 ? Number.NaN : fit.coefficients[position]!;
  const standardError = errorOf(covariance);
  const isInfinite = fit.infinite.includes(position);
  const robustStandardError = robust === null ? null : isInfinite ? Number.NaN : errorOf(robust);
  const error = errorInUse(standardError, robustStandardError);
  const width = normalDeviate(level) * error;
  return {
    name,
    estimate,
    standardError,
    robustStandardError,
    z: estimate / error,
    pValue: normalTwoSided(estimate / error),
    lower: estimate - width,
    upper: estimate + width,
  };
}

/** The robust error, if there is one that does not vanish beside the model's own, or that. */
export function errorInUse(own: number, robust: number | null): number {
  return robust === null || robust <= UNSEEN * own ? own : robust;
}

/** The robust covariance, if there is one and no error of it vanishes beside the model's own, or that. */
export function covarianceInUse(own: Float64Array, robust: Float64Array | null): Float64Array {
  if (robust === null) return own;
  const size = Math.round(Math.sqrt(own.length));
  for (let cell = 0; cell < own.length; cell += size + 1) {
    if (robust[cell]! <= UNSEEN ** 2 * own[cell]!) return own;
  }
  return robust;
}

/** A hazard or odds ratio with its Wald limits, from a coefficient on the log scale. */
export function ratioOfCoefficient(
  coefficient: Coefficient,
  level: number,
): Interval & {
  readonly estimate: number;
} {
  return {
    estimate: Math.exp(coefficient.estimate),
    lower: Math.exp(coefficient.lower),
    upper: Math.exp(coefficient.upper),
    level,
    method: coefficient.robustStandardError === null ? "Wald" : "Wald, robust by cluster",
  };
}

/** A matrix over the used covariates as one over all, 0 elsewhere. */
function spreadOut(matrix: Float64Array, position: readonly number[]): Float64Array {
  const size = position.length;
  const used = Math.round(Math.sqrt(matrix.length));
  const result = new Float64Array(size * size);
  position.forEach((from, row) => {
    position.forEach((to, column) => {
      if (from >= 0 && to >= 0) result[row * size + column] = matrix[from * used + to]!;
    });
  });
  return result;
}
