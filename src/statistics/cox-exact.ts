/**
 * The exact partial likelihood of Cox's discrete model: at each event time, the probability that of
 * all sets of d rows at risk it was these d that failed.
 *
 * The denominator is the sum over sets of d of the product of exp(x b), the elementary symmetric
 * polynomial of degree d, built up row by row with its first and second derivatives,
 *   B(j, m) = B(j - 1, m) + exp(x_j b) B(j - 1, m - 1)
 * (Cox 1972; Gail, Lubin and Rubinstein 1981). With one binary covariate its score test is the log-rank
 * test. The work grows with rows at risk times ties times covariates squared.
 */
import type { CoxData } from "./cox-data.ts";
import type { Evaluation } from "./newton.ts";
import { linearPredictor } from "./weighted-product.ts";

/** Evaluates the exact likelihood at coefficients of the centred covariates. */
export function coxExactLikelihood(data: CoxData, coefficients: Float64Array): Evaluation {
  const size = data.columns.length;
  const predictor = linearPredictor(data.columns, coefficients, data.rows);
  const score = new Float64Array(size);
  const information = new Float64Array(size * size);
  let logLikelihood = 0;
  for (let b = 0; b < data.time.length; b++) {
    const sets = sumOverSets(data, predictor, b);
    logLikelihood -= sets.logSum;
    for (let i = 0; i < data.rows; i++) {
      if (data.lastBlock[i] !== b || data.isEvent[i] === 0) continue;
      logLikelihood += predictor[i]! - sets.shift;
      for (let j = 0; j < size; j++) score[j] = score[j]! + data.columns[j]![i]!;
    }
    for (let j = 0; j < size; j++) {
      score[j] = score[j]! - sets.mean[j]!;
      for (let k = 0; k < size; k++) {
        const cell = j * size + k;
        information[cell] = information[cell]! + sets.second[cell]! - sets.mean[j]! * sets.mean[k]!;
      }
    }
  }
  return { logLikelihood, score, information };
}

/** ln B and the first and second derivatives of B over B, with exp(x b) taken over exp(shift). */
function sumOverSets(data: CoxData, predictor: Float64Array, block: number) {
  const deaths = data.deaths[block]!;
  const rows = rowsAtRisk(data, block);
  const size = data.columns.length;
  const shift = rows.reduce((largest, i) => Math.max(largest, predictor[i]!), -Infinity);
  const sums = new Float64Array(deaths + 1);
  const first = Array.from({ length: deaths + 1 }, () => new Float64Array(size));
  const second = Array.from({ length: deaths + 1 }, () => new Float64Array(size * size));
  sums[0] = 1;
  rows.forEach((row, count) => {
    const risk = Math.exp(predictor[row]! - shift);
    const x = data.columns.map((column) => column[row]!);
    for (let m = Math.min(deaths, count + 1); m >= 1; m--) {
      addRow({ second: second[m]!, first: first[m]!, x, risk }, second[m - 1]!, {
        sum: sums[m - 1]!,
        first: first[m - 1]!,
      });
      sums[m] = sums[m]! + risk * sums[m - 1]!;
    }
  });
  const total = sums[deaths]!;
  if (!Number.isFinite(total) || total === 0) {
    const place = `${deaths} events among ${rows.length} at time ${data.time[block]}`;
    throw new RangeError(`${place} are too many for exact ties; use Efron's`);
  }
  return {
    logSum: Math.log(total),
    shift,
    mean: first[deaths]!.map((value) => value / total),
    second: second[deaths]!.map((value) => value / total),
  };
}

function addRow(
  into: { second: Float64Array; first: Float64Array; x: number[]; risk: number },
  secondBefore: Float64Array,
  before: { sum: number; first: Float64Array },
): void {
  const { second, first, x, risk } = into;
  const size = x.length;
  for (let j = 0; j < size; j++) {
    for (let k = 0; k < size; k++) {
      const cell = j * size + k;
      const product =
        x[j]! * x[k]! * before.sum + x[j]! * before.first[k]! + x[k]! * before.first[j]!;
      second[cell] = second[cell]! + risk * (secondBefore[cell]! + product);
    }
  }
  for (let j = 0; j < size; j++) {
    first[j] = first[j]! + risk * (before.first[j]! + x[j]! * before.sum);
  }
}

function rowsAtRisk(data: CoxData, block: number): number[] {
  const rows: number[] = [];
  const first = data.firstBlock[block]!;
  for (let i = 0; i < data.rows; i++) {
    const last = data.lastBlock[i]!;
    if (last >= block && data.firstBlock[last] === first) rows.push(i);
  }
  return rows;
}
