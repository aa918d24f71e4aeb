/**
 * How many patients are still at risk, where patients give two eyes, and what follows for a curve on
 * which none has failed: its exact limit is then that of so many patients, as if the two eyes of one
 * always agreed, since nothing can be seen of how much they do (as `clustered-proportion.ts` has it; the
 * design effect of Rao and Scott 1992 at its largest).
 */
import { requireSameLength } from "./argument-checks.ts";
import { codeGroups, type GroupLabel } from "./group-codes.ts";
import type { SurvivalCurve } from "./kaplan-meier.ts";
import { survivalLimits } from "./survival-limits.ts";
import { indexTimes } from "./time-index.ts";

/** At each distinct time the clusters of which a row leaves then or later; no delayed entry. */
export function clustersAtRisk(
  time: ArrayLike<number>,
  cluster: ArrayLike<GroupLabel>,
): Float64Array {
  requireSameLength({ time, cluster });
  const { times, position } = indexTimes(time);
  const { labels, codes } = codeGroups(cluster, undefined, "cluster");
  const last = new Int32Array(labels.length).fill(-1);
  for (let row = 0; row < codes.length; row++) {
    const code = codes[row]!;
    if (position[row]! > last[code]!) last[code] = position[row]!;
  }
  const atRisk = new Float64Array(times.length);
  for (const leaves of last) atRisk[leaves] = atRisk[leaves]! + 1;
  for (let j = atRisk.length - 2; j >= 0; j--) atRisk[j] = atRisk[j]! + atRisk[j + 1]!;
  return atRisk;
}

/**
 * A clustered curve with limits where its error cannot be seen: exact ones by clusters wherever it
 * stands at 1 or has come to 0 at once; and where the error vanishes though the curve has fallen, as
 * of one patient of whom one eye failed, Greenwood's, widened by the rows a cluster.
 */
export function limitedByClusters(curve: SurvivalCurve, atRisk: Float64Array): SurvivalCurve {
  const limitsAt = survivalLimits(curve.limits, curve.level);
  const lower = Float64Array.from(curve.lower);
  const upper = Float64Array.from(curve.upper);
  const standardError = Float64Array.from(curve.standardError);
  let greenwood = 0;
  for (let j = 0; j < lower.length; j++) {
    const [survival, n, d] = [curve.survival[j]!, curve.atRisk[j]!, curve.events[j]!];
    if (survival > 0) greenwood += d / (n * (n - d));
    const isPlain = survival > 0 && survival < 1;
    const relativeError = unseenError(curve.standardError[j]! / survival, {
      independent: Math.sqrt(greenwood),
      rows: curve.total,
      clusters: atRisk[0]!,
    });
    if (isPlain) standardError[j] = survival * relativeError;
    [lower[j], upper[j]] = limitsAt({ survival, relativeError, atRisk: atRisk[j]! });
  }
  return { ...curve, standardError, lower, upper, clustersAtRisk: atRisk };
}

/** The clustered error; where it vanishes, the independent one as if rows of a cluster agreed. */
export function unseenError(
  clustered: number,
  by: { readonly independent: number; readonly rows: number; readonly clusters: number },
): number {
  if (!(clustered <= 1e-9 * by.independent)) return clustered;
  return by.independent * Math.sqrt(by.rows / by.clusters);
}
