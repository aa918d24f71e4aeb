/**
 * The partial likelihood of proportional hazards at given coefficients, with its score and
 * information, for Efron's and Breslow's treatment of ties.
 *
 * At an event time with risk set R, deaths D (d of them, weight W) and r_i = w_i exp(x_i b), let
 * S = sum over R and T = sum over D of r, likewise S1, T1 with r x. Efron (1977) has d terms with
 * denominators S - (l / d) T, l = 0 .. d - 1, each of weight W / d; Breslow (1974) one of weight W with
 * denominator S. Summing over times before summing over rows gives each row its cumulative hazard
 *   H_i = sum over terms at times <= t_i of weight / denominator (times 1 - l / d at its own death),
 * so that score = X'(w delta - r H) and the information is X' diag(r H) X less, at each time, the
 * outer product of S1 - (l / d) T1 over the denominators squared: one weighted product and a few rank-
 * one updates per event time, with no second-moment sums kept per time.
 */
import type { CoxData } from "./cox-data.ts";
import { multiplied } from "./gather.ts";
import { columnProducts, linearPredictor, weightedProduct } from "./weighted-product.ts";

export interface CoxEvaluation {
  readonly logLikelihood: number;
  readonly score: Float64Array;
  readonly information: Float64Array;
  /** w exp(x b) of each row, with centred x. */
  readonly risk: Float64Array;
  readonly sums: RiskSums;
  readonly terms: TermSums;
}

/** Sums over risk sets (s) and deaths (t) at each block; s1[c], t1[c] per covariate. */
export interface RiskSums {
  readonly s0: Float64Array;
  readonly t0: Float64Array;
  readonly s1: readonly Float64Array[];
  readonly t1: readonly Float64Array[];
}

/** Sums over the terms of each block, e = weight / denominator and f = weight / denominator^2. */
export interface TermSums {
  readonly logs: number;
  /** Sum of e, and of e l/d: a death's own share. */
  readonly hazard: Float64Array;
  readonly ownShare: Float64Array;
  /** Sums of f, f l/d and f (l/d)^2. */
  readonly square: Float64Array;
  readonly squareShare: Float64Array;
  readonly squareShares: Float64Array;
}

/** Evaluates the partial likelihood at coefficients of the centred covariates. */
export function coxLikelihood(
  data: CoxData,
  coefficients: ArrayLike<number>,
  ties: "Efron" | "Breslow",
): CoxEvaluation {
  const predictor = linearPredictor(data.columns, coefficients, data.rows);
  const risk = new Float64Array(data.rows);
  for (let i = 0; i < data.rows; i++) risk[i] = data.weight[i]! * Math.exp(predictor[i]!);
  const sums = riskSums(data, risk);
  const terms = termSums(data, sums, ties);
  const hazard = rowHazards(data, terms);
  let logLikelihood = -terms.logs;
  const residual = new Float64Array(data.rows);
  for (let i = 0; i < data.rows; i++) {
    const weight = data.isEvent[i] === 1 ? data.weight[i]! : 0;
    logLikelihood += weight * predictor[i]!;
    residual[i] = weight - risk[i]! * hazard[i]!;
  }
  const score = columnProducts(data.columns, residual);
  const information = coxInformation(data, { risk, sums, terms });
  return { logLikelihood, score, information, risk, sums, terms };
}

/**
 * The information, each block's part multiplied by `factor` (per block) when it is given: with g(t)
 * and g(t)^2 it yields the blocks of the test of proportional hazards.
 */
export function coxInformation(
  data: CoxData,
  { risk, sums, terms }: Pick<CoxEvaluation, "risk" | "sums" | "terms">,
  factor?: Float64Array,
): Float64Array {
  const hazard = rowHazards(data, terms, factor);
  const information = weightedProduct(data.columns, multiplied(hazard, risk));
  const size = data.columns.length;
  for (let b = 0; b < data.time.length; b++) {
    const by = factor === undefined ? 1 : factor[b]!;
    const one = by * terms.square[b]!;
    const mixed = by * terms.squareShare[b]!;
    const both = by * terms.squareShares[b]!;
    for (let j = 0; j < size; j++) {
      const s = sums.s1[j]![b]!;
      const t = sums.t1[j]![b]!;
      const forS = one * s - mixed * t;
      const forT = both * t - mixed * s;
      for (let k = 0; k < size; k++) {
        const cell = j * size + k;
        const outer = forS * sums.s1[k]![b]! + forT * sums.t1[k]![b]!;
        information[cell] = information[cell]! - outer;
      }
    }
  }
  return information;
}

/** The cumulative hazard that each row has lived through, at the centre of the covariates. */
export function rowHazards(data: CoxData, terms: TermSums, factor?: Float64Array): Float64Array {
  const by = (values: Float64Array) =>
    factor === undefined ? values : values.map((value, b) => value * factor[b]!);
  const own = by(terms.ownShare);
  const cumulative = cumulate(data, by(terms.hazard));
  const hazards = new Float64Array(data.rows);
  for (let i = 0; i < data.rows; i++) {
    const block = data.lastBlock[i]!;
    hazards[i] = betweenBlocks(data, cumulative, i) - (data.isEvent[i] === 1 ? own[block]! : 0);
  }
  return hazards;
}

/** Running sums over the blocks of each stratum. */
export function cumulate(data: CoxData, values: Float64Array): Float64Array {
  const sums = Float64Array.from(values);
  for (let b = 1; b < sums.length; b++) {
    if (data.firstBlock[b] !== b) sums[b] = sums[b]! + sums[b - 1]!;
  }
  return sums;
}

/** A running sum from a row's entry to its exit. */
export function betweenBlocks(data: CoxData, cumulative: Float64Array, row: number): number {
  const block = data.lastBlock[row]!;
  const entry = data.entryBlock[row]!;
  return cumulative[block]! - (entry < data.firstBlock[block]! ? 0 : cumulative[entry]!);
}

function riskSums(data: CoxData, risk: Float64Array): RiskSums {
  const products = data.columns.map((column) => multiplied(risk, column));
  return {
    s0: overRiskSets(data, risk),
    t0: overDeaths(data, risk),
    s1: products.map((values) => overRiskSets(data, values)),
    t1: products.map((values) => overDeaths(data, values)),
  };
}

/** The sum of `values` over the risk set of each block. */
export function overRiskSets(data: CoxData, values: Float64Array): Float64Array {
  const sums = new Float64Array(data.time.length);
  const { lastBlock, firstBlock } = data;
  for (let i = 0; i < values.length; i++) {
    const block = lastBlock[i]!;
    sums[block] = sums[block]! + values[i]!;
  }
  if (data.isDelayed) subtractEntering(data, values, sums);
  for (let b = sums.length - 2; b >= 0; b--) {
    if (firstBlock[b + 1] !== b + 1) sums[b] = sums[b]! + sums[b + 1]!;
  }
  return sums;
}

function subtractEntering(data: CoxData, values: Float64Array, sums: Float64Array): void {
  for (let i = 0; i < values.length; i++) {
    const entry = data.entryBlock[i]!;
    if (entry >= data.firstBlock[data.lastBlock[i]!]!) sums[entry] = sums[entry]! - values[i]!;
  }
}

function overDeaths(data: CoxData, values: Float64Array): Float64Array {
  const sums = new Float64Array(data.time.length);
  for (let i = 0; i < data.rows; i++) {
    if (data.isEvent[i] === 0) continue;
    const block = data.lastBlock[i]!;
    sums[block] = sums[block]! + values[i]!;
  }
  return sums;
}

function termSums(data: CoxData, { s0, t0 }: RiskSums, ties: "Efron" | "Breslow"): TermSums {
  const column = () => new Float64Array(data.time.length);
  const [hazard, ownShare] = [column(), column()];
  const [square, squareShare, squareShares] = [column(), column(), column()];
  let logs = 0;
  for (let b = 0; b < s0.length; b++) {
    const deaths = ties === "Efron" ? data.deaths[b]! : 1;
    const weight = data.deathWeight[b]! / deaths;
    for (let l = 0; l < deaths; l++) {
      const share = l / deaths;
      const denominator = s0[b]! - share * t0[b]!;
      const e = weight / denominator;
      logs += weight * Math.log(denominator);
      hazard[b] = hazard[b]! + e;
      ownShare[b] = ownShare[b]! + e * share;
      square[b] = square[b]! + e / denominator;
      squareShare[b] = squareShare[b]! + (e / denominator) * share;
      squareShares[b] = squareShares[b]! + (e / denominator) * share * share;
    }
  }
  return { logs, hazard, ownShare, square, squareShare, squareShares };
}
