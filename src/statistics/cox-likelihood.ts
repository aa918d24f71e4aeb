/**
 * The partial likelihood of proportional hazards at given coefficients, with its score and
 * information, for Efron's and Breslow's treatment of ties.
 *
 * At an event time with risk set R, deaths D (d of them, weight W) and r_i = w_i exp(x_i b), let
 * S = sum over R and T = sum over D of r, likewise S1, T1 with r x. Efron (1977) has d terms with
 * denominators S - (l / d) T, l = 0 .. d - 1, each of weight W / d; Breslow (1974) one of weight W with
 * denominator S. Summing over times before summing over rows gives each row its cumulative hazard
 *   H_i = sum over terms at times <= t_i of weight / denominator (times 1 - l / d at its own death),
 * so that the information is X' diag(r H) X less, at each time, the outer product of S1 - (l / d) T1 over
 * the denominators squared: one weighted product and a few rank-one updates per event time, with no
 * second-moment sums kept per time. The score is the events' own sum of x less the sum over terms of
 * S1 - (l / d) T1 over the denominators, and needs no pass over the rows.
 */
import type { CoxData } from "./cox-data.ts";
import { type RiskSums, riskSums } from "./cox-risk-sums.ts";
import { multiplied } from "./gather.ts";
import { weightedProducts } from "./weighted-product.ts";

export interface CoxEvaluation {
  readonly logLikelihood: number;
  readonly score: Float64Array;
  readonly information: Float64Array;
  /** w exp(x b) of each row, with centred x. */
  readonly risk: Float64Array;
  readonly sums: RiskSums;
  readonly terms: TermSums;
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
  const { risk, sums } = riskSums(data, coefficients);
  const terms = termSums(data, sums, ties);
  let logLikelihood = -terms.logs;
  const score = Float64Array.from(data.eventSums, (observed, c) => {
    logLikelihood += observed * coefficients[c]!;
    return observed - expectedSum(terms, sums.s1[c]!, sums.t1[c]!);
  });
  const information = coxInformation(data, { risk, sums, terms });
  return { logLikelihood, score, information, risk, sums, terms };
}

/** What a covariate is expected to sum to over all events: e (S1 - (l/d) T1) over all terms. */
function expectedSum({ hazard, ownShare }: TermSums, s1: Float64Array, t1: Float64Array): number {
  let sum = 0;
  for (let b = 0; b < s1.length; b++) sum += hazard[b]! * s1[b]! - ownShare[b]! * t1[b]!;
  return sum;
}

/**
 * The information.
 *
 * With f, m, h the sums over a block's terms of f, f l/d and f (l/d)^2, the outer products of
 * S1 - (l / d) T1 add up to f (S1 - (m / f) T1)(S1 - (m / f) T1)' + (h - m^2 / f) T1 T1', the second part 0
 * without ties: two weighted products over blocks.
 */
function coxInformation(data: CoxData, at: HazardSums): Float64Array {
  return coxInformations(data, at, [undefined])[0]!;
}

/**
 * The information with each block's part multiplied by a factor (per block), once for each of `factors`: with
 * g(t) and g(t)^2 they are the blocks of the test of proportional hazards.
 */
export function coxInformations(
  data: CoxData,
  { risk, sums, terms }: HazardSums,
  factors: readonly (Float64Array | undefined)[],
): Float64Array[] {
  const perRow = factors.map((factor) => rowWeights(data, { risk, terms }, factor));
  const informations = weightedProducts(data.columns, perRow);
  const { share, rest } = tieShares(terms);
  const between = sums.s1.map((s1, c) => lessShare(s1, sums.t1[c]!, share));
  const perBlock = (values: Float64Array) => factors.map((factor) => times(values, factor));
  subtract(informations, weightedProducts(between, perBlock(terms.square)));
  if (rest !== undefined) subtract(informations, weightedProducts(sums.t1, perBlock(rest)));
  return informations;
}

type HazardSums = Pick<CoxEvaluation, "risk" | "sums" | "terms">;

/** Of each row its relative hazard times the cumulative hazard it has lived through. */
function rowWeights(
  data: CoxData,
  { risk, terms }: Pick<CoxEvaluation, "risk" | "terms">,
  factor?: Float64Array,
): Float64Array {
  const weights = rowHazards(data, terms, factor);
  for (let i = 0; i < weights.length; i++) weights[i] = weights[i]! * risk[i]!;
  return weights;
}

/** By block m / f and h - m^2 / f; the second is undefined where it is 0 in all, without ties. */
function tieShares({ square, squareShare, squareShares }: TermSums) {
  const share = new Float64Array(square.length);
  const rest = new Float64Array(square.length);
  let isTied = false;
  for (let b = 0; b < share.length; b++) {
    const own = squareShare[b]! / square[b]!;
    share[b] = own;
    rest[b] = Math.max(0, squareShares[b]! - own * squareShare[b]!);
    isTied ||= rest[b]! > 0;
  }
  return { share, rest: isTied ? rest : undefined };
}

function lessShare(s1: Float64Array, t1: Float64Array, share: Float64Array): Float64Array {
  const mean = new Float64Array(s1.length);
  for (let b = 0; b < mean.length; b++) mean[b] = s1[b]! - share[b]! * t1[b]!;
  return mean;
}

function times(values: Float64Array, factor: Float64Array | undefined): Float64Array {
  return factor === undefined ? values : multiplied(values, factor);
}

function subtract(from: readonly Float64Array[], values: readonly Float64Array[]): void {
  from.forEach((matrix, k) => {
    const other = values[k]!;
    for (let cell = 0; cell < matrix.length; cell++) matrix[cell] = matrix[cell]! - other[cell]!;
  });
}

/** The cumulative hazard that each row has lived through, at the centre of the covariates. */
export function rowHazards(data: CoxData, terms: TermSums, factor?: Float64Array): Float64Array {
  const cumulative = cumulate(data, times(terms.hazard, factor));
  return overBlocksLived(data, cumulative, times(terms.ownShare, factor));
}

/** A running sum over each row's blocks, less the block's `own` part for those with the event there. */
function overBlocksLived(data: CoxData, cumulative: Float64Array, own: Float64Array): Float64Array {
  const { blockStart, deaths, entryBlock, firstBlock } = data;
  const lived = new Float64Array(data.rows);
  for (let b = 0; b < deaths.length; b++) {
    const start = blockStart[b]!;
    const reached = cumulative[b]!;
    const split = start + deaths[b]!;
    const end = blockStart[b + 1]!;
    for (let i = start; i < split; i++) lived[i] = reached - own[b]!;
    for (let i = split; i < end; i++) lived[i] = reached;
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

/** A product of denominators outside these has its logarithm taken. */
const LARGE = 1e200;

function termSums(data: CoxData, { s0, t0 }: RiskSums, ties: "Efron" | "Breslow"): TermSums {
  const column = () => new Float64Array(data.time.length);
  const [hazard, ownShare] = [column(), column()];
  const [square, squareShare, squareShares] = [column(), column(), column()];
  let logs = 0;
  // of neighbouring terms of one weight, the logarithm of the product
  let product = 1;
  let productWeight = 0;
  for (let b = 0; b < s0.length; b++) {
    const deaths = ties === "Efron" ? data.deaths[b]! : 1;
    const weight = data.deathWeight[b]! / deaths;
    const [whole, part] = [s0[b]!, t0[b]! / deaths];
    let [e0, e1, f0, f1, f2] = [0, 0, 0, 0, 0];
    for (let l = 0; l < deaths; l++) {
      const denominator = whole - l * part;
      const e = 1 / denominator;
      const f = e * e;
      if (weight !== productWeight || !(product < LARGE && product > 1 / LARGE)) {
        logs += productWeight * Math.log(product);
        product = 1;
        productWeight = weight;
      }
      product *= denominator;
      e0 += e;
      e1 += e * l;
      f0 += f;
      f1 += f * l;
      f2 += f * l * l;
    }
    hazard[b] = weight * e0;
    ownShare[b] = (weight * e1) / deaths;
    square[b] = weight * f0;
    squareShare[b] = (weight * f1) / deaths;
    squareShares[b] = (weight * f2) / (deaths * deaths);
  }
  logs += productWeight * Math.log(product);
  return { logs, hazard, ownShare, square, squareShare, squareShares };
}
