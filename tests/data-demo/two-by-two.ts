/** Failures and eyes of two groups within one stratum. */
export interface Stratum {
  readonly failures: readonly [number, number];
  readonly eyes: readonly [number, number];
}

export interface LogOddsRatio {
  readonly estimate: number;
  readonly standardError: number;
}

/**
 * Log of the Mantel-Haenszel odds ratio, first group against second, with the standard error of
 * Robins, Breslow and Greenland 1986. Strata with one group alone have no weight.
 */
export function mantelHaenszel(strata: readonly Stratum[]): LogOddsRatio {
  let [sumR, sumS, sumPR, sumMixed, sumQS] = [0, 0, 0, 0, 0];
  for (const { failures, eyes } of strata) {
    const [a, c] = failures;
    const [b, d] = [eyes[0] - a, eyes[1] - c];
    const total = a + b + c + d;
    if (total === 0) continue;
    const [r, s] = [(a * d) / total, (b * c) / total];
    const [p, q] = [(a + d) / total, (b + c) / total];
    sumR += r;
    sumS += s;
    sumPR += p * r;
    sumMixed += p * s + q * r;
    sumQS += q * s;
  }
  const variance = sumPR / (2 * sumR ** 2) + sumMixed / (2 * sumR * sumS) + sumQS / (2 * sumS ** 2);
  return { estimate: Math.log(sumR / sumS), standardError: Math.sqrt(variance) };
}

/** How many standard errors an estimate lies from a value. */
export function distance({ estimate, standardError }: LogOddsRatio, value: number): number {
  return Math.abs(estimate - value) / standardError;
}
