/**
 * Logistic regression about the means of its covariates.
 *
 * Far from 0, as calendar years are, a covariate is nearly a multiple of the intercept: at their common
 * origin the intercept is hundreds of log odds with an error as large, and a fit that measures its steps by
 * either is lost. Taken from its mean, a covariate keeps its coefficient and only the intercept changes, by
 * the sum of means times coefficients; the likelihood, and the determinant of the information that Firth's
 * penalty is made of, stay the same.
 */
import { sumOf } from "./column-sums.ts";
import type { LogisticData } from "./logistic-data.ts";

export interface AboutMeans {
  readonly centred: LogisticData;
  /** Of each column; 0 for the intercept. */
  readonly means: Float64Array;
}

/**
 * The data with the mean taken from every covariate whose mean is more than `farther` standard deviations
 * from 0; from all unless said.
 */
export function aboutMeans(data: LogisticData, farther = 0): AboutMeans {
  const means = Float64Array.from(data.columns, (column, c) => {
    const mean = c === 0 || data.rows === 0 ? 0 : sumOf(column) / data.rows;
    return Math.abs(mean) > farther * data.spread[c]! ? mean : 0;
  });
  const columns = data.columns.map((column, c) => {
    const mean = means[c]!;
    return mean === 0 ? column : column.map((x) => x - mean);
  });
  return { centred: { ...data, columns }, means };
}

/** Coefficients about the means as those at the origin: the intercept where every covariate is 0. */
export function atOrigin(coefficients: Float64Array, means: Float64Array): Float64Array {
  const moved = Float64Array.from(coefficients);
  coefficients.forEach((coefficient, c) => {
    if (c > 0) moved[0] = moved[0]! - means[c]! * coefficient;
  });
  return moved;
}

/** The covariance of coefficients about the means as that of those at the origin. */
export function covarianceAtOrigin(covariance: Float64Array, means: Float64Array): Float64Array {
  const size = means.length;
  const moved = Float64Array.from(covariance);
  for (const [along, across] of [
    [1, size],
    [size, 1],
  ] as const) {
    for (let k = 0; k < size; k++) {
      for (let c = 1; c < size; c++) {
        moved[k * along] = moved[k * along]! - means[c]! * moved[c * across + k * along]!;
      }
    }
  }
  return moved;
}
