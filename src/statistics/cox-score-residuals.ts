/**
 * Score residuals of a Cox model: each row's part of the score,
 *   delta (x - xbar(t)) - exp(x b) [x H - integral of xbar dH]
 * with Efron's weights at a row's own death (Therneau and Grambsch 2000, section 4.6). They sum to 0 at
 * the estimates; summed by patient they give the robust variance.
 */
import type { CoxData } from "./cox-data.ts";
import { type CoxEvaluation, cumulate, rowHazards } from "./cox-likelihood.ts";

/** Score residuals by covariate, in the order of the arranged rows, times the case weights. */
export function scoreResiduals(data: CoxData, evaluation: CoxEvaluation): Float64Array[] {
  const hazards = rowHazards(data, evaluation.terms);
  return data.columns.map((column, c) => {
    const { mean, hazard, ownShare } = expectedCovariate(evaluation, {
      c,
      deathWeight: data.deathWeight,
    });
    const expected = { mean, ownShare, cumulative: cumulate(data, hazard) };
    const residuals = ofCovariate(data, { column, hazards, risk: evaluation.risk, ...expected });
    if (data.isDelayed) giveBack(residuals, data, { ...expected, risk: evaluation.risk });
    return residuals;
  });
}

interface ResidualParts {
  readonly column: Float64Array;
  /** By row: its relative hazard, and the cumulative hazard that it lived through. */
  readonly risk: Float64Array;
  readonly hazards: Float64Array;
  /** By block: the expected covariate, and of xbar dH the running sum and a death's own share. */
  readonly mean: Float64Array;
  readonly cumulative: Float64Array;
  readonly ownShare: Float64Array;
}

/** The residuals of rows that are under observation from the start. */
function ofCovariate(data: CoxData, parts: ResidualParts): Float64Array {
  const { blockStart, deaths, weight } = data;
  const { column, risk, hazards, mean, cumulative, ownShare } = parts;
  const residuals = new Float64Array(data.rows);
  for (let b = 0; b < deaths.length; b++) {
    const split = blockStart[b]! + deaths[b]!;
    const end = blockStart[b + 1]!;
    const reached = cumulative[b]!;
    const atDeath = reached - ownShare[b]!;
    const expected = mean[b]!;
    for (let i = blockStart[b]!; i < split; i++) {
      const x = column[i]!;
      residuals[i] = risk[i]! * (atDeath - x * hazards[i]!) + weight[i]! * (x - expected);
    }
    for (let i = split; i < end; i++)
      residuals[i] = risk[i]! * (reached - column[i]! * hazards[i]!);
  }
  return residuals;
}

/** Takes from the residuals of rows that entered late what was summed before they did. */
function giveBack(
  residuals: Float64Array,
  { entryBlock, firstBlock, lastBlock }: CoxData,
  { risk, cumulative }: Pick<ResidualParts, "risk" | "cumulative">,
): void {
  for (let i = 0; i < residuals.length; i++) {
    const entry = entryBlock[i]!;
    if (entry < firstBlock[lastBlock[i]!]!) continue;
    residuals[i] = residuals[i]! - risk[i]! * cumulative[entry]!;
  }
}

/**
 * Of one covariate per block: its expectation for those who have the event, and the sums over terms of
 * e xbar and e xbar l/d. With xbar = (S1 - (l/d) T1) / denominator they are S1 and T1 times sums that the
 * likelihood has already made.
 */
export function expectedCovariate(
  { sums, terms }: CoxEvaluation,
  { c, deathWeight }: { c: number; deathWeight: Float64Array },
) {
  const [s1, t1] = [sums.s1[c]!, sums.t1[c]!];
  const blocks = s1.length;
  const column = () => new Float64Array(blocks);
  const parts = { mean: column(), hazard: column(), ownShare: column() };
  for (let b = 0; b < blocks; b++) {
    const [s, t] = [s1[b]!, t1[b]!];
    parts.mean[b] = (s * terms.hazard[b]! - t * terms.ownShare[b]!) / deathWeight[b]!;
    parts.hazard[b] = s * terms.square[b]! - t * terms.squareShare[b]!;
    parts.ownShare[b] = s * terms.squareShare[b]! - t * terms.squareShares[b]!;
  }
  return parts;
}
