/**
 * Score residuals of a Cox model: each row's part of the score,
 *   delta (x - xbar(t)) - exp(x b) [x H - integral of xbar dH]
 * with Efron's weights at a row's own death (Therneau and Grambsch 2000, section 4.6). They sum to 0 at
 * the estimates; summed by patient they give the robust variance.
 */
import type { CoxData } from "./cox-data.ts";
import { type CoxEvaluation, cumulate, overBlocksLived, rowHazards } from "./cox-likelihood.ts";

/** Score residuals by covariate, in the order of the arranged rows, without case weights. */
export function scoreResiduals(
  data: CoxData,
  evaluation: CoxEvaluation,
  ties: "Efron" | "Breslow",
): Float64Array[] {
  const hazards = rowHazards(data, evaluation.terms);
  const { risk } = evaluation;
  return data.columns.map((column, c) => {
    const parts = meanParts(data, evaluation, { c, ties });
    const integrals = overBlocksLived(data, cumulate(data, parts.hazard), parts.ownShare);
    const residuals = new Float64Array(data.rows);
    for (let i = 0; i < data.rows; i++) {
      const block = data.lastBlock[i]!;
      const isEvent = data.isEvent[i] === 1;
      const lived = (risk[i]! / data.weight[i]!) * (column[i]! * hazards[i]! - integrals[i]!);
      residuals[i] = (isEvent ? column[i]! - parts.mean[block]! : 0) - lived;
    }
    return residuals;
  });
}

/** Per block: the expected covariate, and the sums over terms of e xbar and e xbar l/d. */
export function meanParts(
  data: CoxData,
  { sums }: CoxEvaluation,
  { c, ties }: { c: number; ties: "Efron" | "Breslow" },
) {
  const column = () => new Float64Array(data.time.length);
  const parts = { mean: column(), hazard: column(), ownShare: column() };
  const [s1, t1] = [sums.s1[c]!, sums.t1[c]!];
  for (let b = 0; b < data.time.length; b++) {
    const deaths = ties === "Efron" ? data.deaths[b]! : 1;
    const weight = data.deathWeight[b]! / deaths;
    for (let l = 0; l < deaths; l++) {
      const share = l / deaths;
      const denominator = sums.s0[b]! - share * sums.t0[b]!;
      const mean = (s1[b]! - share * t1[b]!) / denominator;
      const part = (weight / denominator) * mean;
      parts.mean[b] = parts.mean[b]! + mean / deaths;
      parts.hazard[b] = parts.hazard[b]! + part;
      parts.ownShare[b] = parts.ownShare[b]! + part * share;
    }
  }
  return parts;
}
