/**
 * The partial likelihood of the subdistribution hazard: over the failures of the cause, x'b less the
 * log of the weighted sum of exp(x'b) over those at risk (Fine and Gray 1999; Breslow's treatment of ties,
 * 1974).
 *
 * Sums over the risk set are running sums: backwards in time over those still followed, forwards over
 * those who failed of another cause, each by 1/G(T-), which G(t-) then multiplies.
 */
import type { Evaluation } from "./newton.ts";
import type { SubdistributionData } from "./subdistribution-data.ts";

export interface SubdistributionEvaluation extends Evaluation {
  readonly coefficients: Float64Array;
  /** By row, exp(x'b). */
  readonly risk: Float64Array;
  /** By time: the weighted sum of the risks, and the weighted mean of each covariate. */
  readonly totalRisk: Float64Array;
  readonly means: readonly Float64Array[];
}

/** The log-likelihood at some coefficients, its slope and its information. */
export function subdistributionLikelihood(
  data: SubdistributionData,
  coefficients: Float64Array,
): SubdistributionEvaluation {
  const { columns, position, kind, failed, times } = data;
  const size = columns.length;
  const risk = Float64Array.from(position, (_, row) => {
    return Math.exp(columns.reduce((sum, column, j) => sum + column[row]! * coefficients[j]!, 0));
  });
  const totalRisk = sumsAtRisk(data, (row) => risk[row]!);
  const means = columns.map((column) =>
    sumsAtRisk(data, (row) => risk[row]! * column[row]!).map((sum, at) => sum / totalRisk[at]!),
  );
  const information = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    for (let k = 0; k <= j; k++) {
      const squares = sumsAtRisk(data, (row) => risk[row]! * columns[j]![row]! * columns[k]![row]!);
      let sum = 0;
      for (let at = 0; at < times.length; at++) {
        if (failed[at] === 0) continue;
        sum += failed[at]! * (squares[at]! / totalRisk[at]! - means[j]![at]! * means[k]![at]!);
      }
      information[j * size + k] = sum;
      information[k * size + j] = sum;
    }
  }
  const score = Float64Array.from(columns, (column, j) => {
    let sum = 0;
    position.forEach((at, row) => {
      if (kind[row] === 1) sum += column[row]! - means[j]![at]!;
    });
    return sum;
  });
  let logLikelihood = 0;
  position.forEach((at, row) => {
    if (kind[row] === 1) logLikelihood += Math.log(risk[row]!) - Math.log(totalRisk[at]!);
  });
  return { coefficients, logLikelihood, score, information, risk, totalRisk, means };
}

/** By time, the weighted sum of something over the rows at risk of the cause. */
export function sumsAtRisk(
  { times, position, kind, uncensored }: SubdistributionData,
  ofRow: (row: number) => number,
): Float64Array {
  const staying = new Float64Array(times.length);
  const gone = new Float64Array(times.length);
  position.forEach((at, row) => {
    const value = ofRow(row);
    staying[at] = staying[at]! + value;
    if (kind[row] === 2) gone[at] = gone[at]! + value / uncensored[at]!;
  });
  for (let at = times.length - 2; at >= 0; at--) staying[at] = staying[at]! + staying[at + 1]!;
  let before = 0;
  return staying.map((sum, at) => {
    const total = sum + before * uncensored[at]!;
    before += gone[at]!;
    return total;
  });
}
