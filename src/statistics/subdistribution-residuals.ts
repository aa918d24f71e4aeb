/**
 * What each row adds to the score of the subdistribution hazard, with its part in the estimate of
 * censoring (Fine and Gray 1999, section 3; the sum of squares over rows is the middle of their
 * variance).
 *
 * A row's own part is the integral of (x - mean) by its weighted martingale. Its part through G is the
 * integral of q(u) / atRisk(u) by its martingale of censoring, where q(u) is what the rows that failed of
 * another cause before u still add to the score from u on, failures at u itself included.
 */
import type { SubdistributionData } from "./subdistribution-data.ts";
import type { SubdistributionEvaluation } from "./subdistribution-likelihood.ts";

/** One column per covariate, one element per row. */
export function subdistributionResiduals(
  data: SubdistributionData,
  evaluation: SubdistributionEvaluation,
): Float64Array[] {
  return data.columns.map((column, j) => {
    const own = ownPart(data, evaluation, { column, means: evaluation.means[j]! });
    const through = throughCensoring(data, evaluation, { column, means: evaluation.means[j]! });
    return own.map((value, row) => value + through[row]!);
  });
}

interface Covariate {
  readonly column: Float64Array;
  /** By time. */
  readonly means: Float64Array;
}

function ownPart(
  data: SubdistributionData,
  { risk, totalRisk }: SubdistributionEvaluation,
  { column, means }: Covariate,
): Float64Array {
  const { position, kind, failed, uncensored } = data;
  const hazard = failed.map((count, at) => (count === 0 ? 0 : count / totalRisk[at]!));
  const upTo = runningSum(hazard);
  const meanUpTo = runningSum(hazard.map((step, at) => step * means[at]!));
  const after = sumAfter(hazard.map((step, at) => step * uncensored[at]!));
  const meanAfter = sumAfter(hazard.map((step, at) => step * uncensored[at]! * means[at]!));
  return Float64Array.from(position, (at, row) => {
    const x = column[row]!;
    const expected = risk[row]! * (x * upTo[at]! - meanUpTo[at]!);
    if (kind[row] === 0) return -expected;
    if (kind[row] === 1) return x - means[at]! - expected;
    const later = (risk[row]! / uncensored[at]!) * (x * after[at]! - meanAfter[at]!);
    return -expected - later;
  });
}

function throughCensoring(
  data: SubdistributionData,
  { risk, totalRisk }: SubdistributionEvaluation,
  { column, means }: Covariate,
): Float64Array {
  const { position, kind, failed, censored, atRisk, uncensored, times } = data;
  const step = failed.map((count, at) =>
    count === 0 ? 0 : (count / totalRisk[at]!) * uncensored[at]!,
  );
  const fromOn = sumFrom(step);
  const meanFromOn = sumFrom(step.map((value, at) => value * means[at]!));
  const [gone, goneByX] = [new Float64Array(times.length), new Float64Array(times.length)];
  position.forEach((at, row) => {
    if (kind[row] !== 2) return;
    const weight = risk[row]! / uncensored[at]!;
    gone[at] = gone[at]! + weight;
    goneByX[at] = goneByX[at]! + weight * column[row]!;
  });
  const [goneBefore, goneByXBefore] = [sumBefore(gone), sumBefore(goneByX)];
  // By time of censoring: q over those at risk, and its sum by the hazard of censoring.
  const pull = times.map(
    (_, at) => (goneByXBefore[at]! * fromOn[at]! - goneBefore[at]! * meanFromOn[at]!) / atRisk[at]!,
  );
  const pulled = runningSum(pull.map((value, at) => (value * censored[at]!) / atRisk[at]!));
  return Float64Array.from(position, (at, row) => {
    return (kind[row] === 0 ? pull[at]! : 0) - pulled[at]!;
  });
}

function runningSum(values: Float64Array): Float64Array {
  let sum = 0;
  return values.map((value) => {
    sum += value;
    return sum;
  });
}

/** At each place the sum of what comes before it. */
function sumBefore(values: Float64Array): Float64Array {
  const sums = runningSum(values);
  return sums.map((_, at) => (at === 0 ? 0 : sums[at - 1]!));
}

/** At each place the sum of it and of what comes behind it. */
function sumFrom(values: Float64Array): Float64Array {
  return runningSum(values.toReversed()).toReversed();
}

/** At each place the sum of what comes behind it. */
function sumAfter(values: Float64Array): Float64Array {
  const sums = sumFrom(values);
  return sums.map((_, at) => sums[at + 1] ?? 0);
}
