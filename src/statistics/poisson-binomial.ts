/**
 * The number of failures among eyes that each have a risk of their own: the Poisson-binomial
 * distribution, exact.
 *
 * Eye by eye, P(k) becomes P(k) (1 - p) + P(k - 1) p; every term is a sum of positive numbers, so
 * small probabilities keep their relative accuracy (of the ways that Hong compares, Computational
 * Statistics and Data Analysis 2013;59:41, the direct one). With equal risks it is the binomial
 * distribution. It is less spread than the Poisson with the same mean.
 *
 * The test at 5% is wrong in 5% or fewer, whatever the risks (counted in the tables of real
 * coverage among the tests).
 */
import { requireCount } from "./argument-checks.ts";
import { requireRisks } from "./count-distributions.ts";
import { type CountTest, countTest } from "./count-test.ts";

/** P(0), P(1), ..., P(n failures) for the risks of n eyes. */
export function poissonBinomialProbabilities(risks: ArrayLike<number>): Float64Array {
  requireRisks("risks", risks);
  const probabilities = new Float64Array(risks.length + 1);
  probabilities[0] = 1;
  for (let i = 0; i < risks.length; i++) {
    const p = risks[i]!;
    for (let k = i + 1; k >= 1; k--) {
      probabilities[k] = probabilities[k]! * (1 - p) + probabilities[k - 1]! * p;
    }
    probabilities[0] = probabilities[0]! * (1 - p);
  }
  return probabilities;
}

export interface RisksTest extends CountTest {
  readonly expected: number;
  readonly variance: number;
  /** (observed - expected) over its standard deviation; null when the risks leave no chance. */
  readonly z: number | null;
}

/** Tests an observed count of failures against the risks of the eyes. */
export function observedAgainstRisks(observed: number, risks: ArrayLike<number>): RisksTest {
  requireCount("observed", observed);
  if (observed > risks.length) {
    throw new RangeError(
      `observed is ${observed} of ${risks.length} eyes; expected at most as many`,
    );
  }
  const probabilities = poissonBinomialProbabilities(risks);
  const values = Array.from(risks);
  const expected = values.reduce((sum, p) => sum + p, 0);
  const variance = values.reduce((sum, p) => sum + p * (1 - p), 0);
  return {
    ...countTest(observed, distributionOf(probabilities)),
    expected,
    variance,
    z: variance === 0 ? null : (observed - expected) / Math.sqrt(variance),
  };
}

/** Tails are summed from their ends, where terms are small. */
function distributionOf(probabilities: Float64Array) {
  const upTo = Float64Array.from(probabilities);
  const from = Float64Array.from(probabilities);
  const last = probabilities.length - 1;
  for (let k = 1; k <= last; k++) {
    upTo[k] = upTo[k]! + upTo[k - 1]!;
    from[last - k] = from[last - k]! + from[last - k + 1]!;
  }
  return {
    probability: (k: number) => probabilities[k] ?? 0,
    lowerTail: (k: number) => (k < 0 ? 0 : Math.min(1, upTo[Math.min(k, last)]!)),
    upperTail: (k: number) => (k > last ? 0 : Math.min(1, from[Math.max(0, k)]!)),
    mode: probabilities.indexOf(Math.max(...probabilities)),
    most: last,
  };
}
