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
import { added, multiplied } from "./gather.ts";
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
  const residual = new Float64Array(data.rows);
  let logLikelihood = -terms.logs;
  for (let i = 0; i < data.rows; i++) {
    const weight = data.isEvent[i]! * data.weight[i]!;
    logLikelihood += weight * predictor[i]!;
    residual[i] = weight - risk[i]! * hazard[i]!;
  }
  const score = columnProducts(data.columns, residual);
  const information = coxInformation(data, { risk, sums, terms }, { hazard });
  return { logLikelihood, score, information, risk, sums, terms };
}

/**
 * The information, each block's part multiplied by `factor` (per block) when it is given: with g(t)
 * and g(t)^2 it yields the blocks of the test of proportional hazards. `hazard`: the rows' hazards,
 * where they are already known.
 *
 * The outer products of S1 - (l / d) T1 summed over the terms of all blocks are three weighted products
 * over blocks: with f, m, h the sums of f, f l/d and f (l/d)^2,
 *   S1'(f + m) S1 + T1'(h + m) T1 - (S1 + T1)' m (S1 + T1).
 */
export function coxInformation(
  data: CoxData,
  { risk, sums, terms }: Pick<CoxEvaluation, "risk" | "sums" | "terms">,
  { factor, hazard }: { factor?: Float64Array; hazard?: Float64Array } = {},
): Float64Array {
  const lived = hazard ?? rowHazards(data, terms, factor);
  const information = weightedProduct(data.columns, multiplied(lived, risk));
  const by = (values: Float64Array) => (factor === undefined ? values : multiplied(values, factor));
  const [f, m, h] = [by(terms.square), by(terms.squareShare), by(terms.squareShares)];
  subtract(information, weightedProduct(sums.s1, added(f, m)));
  if (m.every((value) => value === 0)) return information;
  subtract(information, weightedProduct(sums.t1, added(h, m)));
  const both = sums.s1.map((column, c) => added(column, sums.t1[c]!));
  const negative = weightedProduct(both, m);
  for (let cell = 0; cell < information.length; cell++) {
    information[cell] = information[cell]! + negative[cell]!;
  }
  return information;
}

function subtract(from: Float64Array, values: Float64Array): void {
  for (let cell = 0; cell < from.length; cell++) from[cell] = from[cell]! - values[cell]!;
}

/** The cumulative hazard that each row has lived through, at the centre of the covariates. */
export function rowHazards(data: CoxData, terms: TermSums, factor?: Float64Array): Float64Array {
  const by = (values: Float64Array) => (factor === undefined ? values : multiplied(values, factor));
  return overBlocksLived(data, cumulate(data, by(terms.hazard)), by(terms.ownShare));
}

/** A running sum over each row's blocks, less the block's `own` part for those with the event there. */
export function overBlocksLived(
  data: CoxData,
  cumulative: Float64Array,
  own: Float64Array,
): Float64Array {
  const { blockStart, deaths, entryBlock, firstBlock } = data;
  const lived = new Float64Array(data.rows);
  for (let b = 0; b < deaths.length; b++) {
    const start = blockStart[b]!;
    const reached = cumulative[b]!;
    lived.fill(reached - own[b]!, start, start + deaths[b]!);
    lived.fill(reached, start + deaths[b]!, blockStart[b + 1]!);
  }
  for (let i = 0; data.isDelayed && i < lived.length; i++) {
    const entry = entryBlock[i]!;
    if (entry >= firstBlock[data.lastBlock[i]!]!) lived[i] = lived[i]! - cumulative[entry]!;
  }
  return lived;
}

/** Running sums over the blocks of each stratum. */
export function cumulate(data: CoxData, values: Float64Array): Float64Array {
  const sums = Float64Array.from(values);
  for (let b = 1; b < sums.length; b++) {
    if (data.firstBlock[b] !== b) sums[b] = sums[b]! + sums[b - 1]!;
  }
  return sums;
}

function riskSums(data: CoxData, risk: Float64Array): RiskSums {
  const ones = blockSums(data, risk);
  const each = data.columns.map((column) => blockSums(data, risk, column));
  return {
    s0: ones.everyone,
    t0: ones.events,
    s1: each.map((sums) => sums.everyone),
    t1: each.map((sums) => sums.events),
  };
}

/** Sums of risk (times a covariate) over the events of each block, and over its risk set. */
function blockSums(data: CoxData, risk: Float64Array, column?: Float64Array) {
  const { blockStart, deaths, firstBlock } = data;
  const events = new Float64Array(deaths.length);
  const everyone = new Float64Array(deaths.length);
  for (let b = deaths.length - 1; b >= 0; b--) {
    const start = blockStart[b]!;
    const end = start + deaths[b]!;
    events[b] = sumOfRun(risk, column, { start, end });
    const own = events[b]! + sumOfRun(risk, column, { start: end, end: blockStart[b + 1]! });
    const isLast = b + 1 === deaths.length || firstBlock[b + 1] === b + 1;
    everyone[b] = own + (isLast ? 0 : everyone[b + 1]!);
  }
  if (data.isDelayed) subtractEntering(data, everyone, { risk, column });
  return { events, everyone };
}

function sumOfRun(
  risk: Float64Array,
  column: Float64Array | undefined,
  { start, end }: { start: number; end: number },
): number {
  let sum = 0;
  if (column === undefined) for (let i = start; i < end; i++) sum += risk[i]!;
  else for (let i = start; i < end; i++) sum += risk[i]! * column[i]!;
  return sum;
}

/** Takes those who enter late out of the risk sets before. */
function subtractEntering(
  data: CoxData,
  sums: Float64Array,
  { risk, column }: { risk: Float64Array; column: Float64Array | undefined },
): void {
  const { entryBlock, firstBlock, lastBlock } = data;
  const entering = new Float64Array(sums.length);
  for (let i = 0; i < risk.length; i++) {
    const entry = entryBlock[i]!;
    if (entry < firstBlock[lastBlock[i]!]!) continue;
    entering[entry] = entering[entry]! + risk[i]! * (column === undefined ? 1 : column[i]!);
  }
  for (let b = sums.length - 1; b >= 0; b--) {
    const isLast = b + 1 === sums.length || firstBlock[b + 1] === b + 1;
    if (!isLast) entering[b] = entering[b]! + entering[b + 1]!;
    sums[b] = sums[b]! - entering[b]!;
  }
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
