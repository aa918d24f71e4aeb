/**
 * Score residuals of a Cox model: each row's part of the score,
 *   delta (x - xbar(t)) - exp(x b) [x H - integral of xbar dH]
 * with Efron's weights at a row's own death (Therneau and Grambsch 2000, section 4.6). They sum to 0 at
 * the estimates; summed by patient they give the robust variance.
 */
import type { CoxData } from "./cox-data.ts";
import { type CoxEvaluation, cumulate, overBlocksLived, rowHazards } from "./cox-likelihood.ts";

/** Score residuals by covariate, in the order of the arranged rows, times the case weights. */
export function scoreResiduals(data: CoxData, evaluation: CoxEvaluation): Float64Array[] {
  const hazards = rowHazards(data, evaluation.terms);
  const { risk } = evaluation;
  return data.columns.map((column, c) => {
    const parts = expectedCovariate(evaluation, { c, deathWeight: data.deathWeight });
    const residuals = overBlocksLived(data, cumulate(data, parts.hazard), parts.ownShare);
    for (let i = 0; i < residuals.length; i++) {
      residuals[i] = risk[i]! * (residuals[i]! - column[i]! * hazards[i]!);
    }
    addOwnEvents(residuals, column, { data, mean: parts.mean });
    return residuals;
  });
}

function addOwnEvents(
  residuals: Float64Array,
  column: Float64Array,
  { data, mean }: { data: CoxData; mean: Float64Array },
): void {
  for (let b = 0; b < mean.length; b++) {
    const start = data.blockStart[b]!;
    for (let i = start; i < start + data.deaths[b]!; i++) {
      residuals[i] = residuals[i]! + data.weight[i]! * (column[i]! - mean[b]!);
    }
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
