/**
 * The part of Firth's penalty in the score of Cox regression, tr(I^-1 dI/db_r) / 2 (Heinze and Schemper
 * 2001). Each term of the likelihood (see `cox-likelihood.ts`) adds to I the variance of x under weights
 * on its risk set, and to dI/db_r its third central moment, so that this part is half the sum over
 * terms of
 *   E[(x_r - xbar_r) (x - xbar)' I^-1 (x - xbar)]
 *     = E[x_r q] - xbar_r E[q] - 2 (I^-1 xbar)' E[x x_r] + 2 xbar_r xbar' I^-1 xbar,  q = x' I^-1 x,
 * whose expectations are sums over risk sets, made in one pass each: the work grows with rows plus
 * events, times the square of the number of covariates.
 */
import type { CoxData } from "./cox-data.ts";
import type { CoxEvaluation } from "./cox-likelihood.ts";
import { blockSums } from "./cox-risk-sums.ts";
import { multiplied } from "./gather.ts";
import { cholesky, inverse } from "./symmetric-solve.ts";

/** The sum over terms for each covariate, as a function of the likelihood at some coefficients. */
export function firthPenalty(
  data: CoxData,
  ties: "Efron" | "Breslow",
): (evaluation: CoxEvaluation) => Float64Array {
  const pairs = pairsOf(data.columns);
  return (evaluation) => {
    const covariance = inverse(cholesky(evaluation.information, 1e-14));
    const moments = momentSums(data, pairs, { risk: evaluation.risk, covariance });
    const penalty = new Float64Array(data.columns.length);
    for (let block = 0; block < data.time.length; block++) {
      const deaths = ties === "Efron" ? data.deaths[block]! : 1;
      for (let l = 0; l < deaths; l++) {
        const term = { block, share: l / deaths, weight: data.deathWeight[block]! / deaths };
        addTerm(penalty, term, { ...evaluation.sums, moments, covariance });
      }
    }
    return penalty;
  };
}

/** The products of each two covariates: of r and j at r p + j, each made once. */
function pairsOf(columns: readonly Float64Array[]): readonly Float64Array[] {
  const size = columns.length;
  const pairs: Float64Array[] = [];
  for (let r = 0; r < size; r++) {
    for (let j = 0; j < size; j++) {
      pairs.push(j < r ? pairs[j * size + r]! : multiplied(columns[r]!, columns[j]!));
    }
  }
  return pairs;
}

type BlockSums = ReturnType<typeof blockSums>;

/** Sums over risk sets and deaths of q, of q x_r, and of x_r x_j: q = x' I^-1 x of a row. */
interface MomentSums {
  readonly form: BlockSums;
  readonly formBy: readonly BlockSums[];
  readonly products: readonly BlockSums[];
}

function momentSums(
  data: CoxData,
  pairs: readonly Float64Array[],
  { risk, covariance }: { readonly risk: Float64Array; readonly covariance: Float64Array },
): MomentSums {
  const { columns } = data;
  const size = columns.length;
  const forms = new Float64Array(data.rows);
  const products: BlockSums[] = [];
  pairs.forEach((pair, cell) => {
    const [r, j] = [Math.floor(cell / size), cell % size];
    const factor = covariance[cell]!;
    for (let i = 0; i < forms.length; i++) forms[i] = forms[i]! + factor * pair[i]!;
    products.push(j < r ? products[j * size + r]! : blockSums(data, risk, pair));
  });
  const formBy = columns.map((column) => blockSums(data, risk, multiplied(forms, column)));
  return { form: blockSums(data, risk, forms), formBy, products };
}

interface Term {
  readonly block: number;
  /** l / d: the part of the deaths' risk that has left. */
  readonly share: number;
  readonly weight: number;
}

type TermSums = CoxEvaluation["sums"] & {
  readonly moments: MomentSums;
  readonly covariance: Float64Array;
};

function addTerm(penalty: Float64Array, { block, share, weight }: Term, sums: TermSums): void {
  const { s0, t0, s1, t1, moments, covariance } = sums;
  const size = penalty.length;
  const denominator = s0[block]! - share * t0[block]!;
  const mean = new Float64Array(size);
  for (let c = 0; c < size; c++) {
    mean[c] = (s1[c]![block]! - share * t1[c]![block]!) / denominator;
  }
  const turned = new Float64Array(size);
  let ofMean = 0;
  for (let j = 0; j < size; j++) {
    for (let k = 0; k < size; k++) turned[j] = turned[j]! + covariance[j * size + k]! * mean[k]!;
    ofMean += turned[j]! * mean[j]!;
  }
  const form = leftOf(moments.form, block, share) / denominator;
  for (let r = 0; r < size; r++) {
    let value = leftOf(moments.formBy[r]!, block, share) / denominator;
    value += mean[r]! * (2 * ofMean - form);
    for (let j = 0; j < size; j++) {
      value -=
        (2 * turned[j]! * leftOf(moments.products[r * size + j]!, block, share)) / denominator;
    }
    penalty[r] = penalty[r]! + weight * value;
  }
}

/** A sum over a risk set, without the share of those with the event that have left. */
function leftOf({ everyone, events }: BlockSums, block: number, share: number): number {
  return everyone[block]! - share * events[block]!;
}
