/**
 * The cumulative incidence of eyes with a standard error that allows for two eyes of one patient.
 *
 * The infinitesimal jackknife: with S(u-) overall survival, h(u) = d / n the hazard of all causes and
 * p(u) = d_k / n that of cause k, the influence of row i on F_k(t) is
 *   sum over u <= t of S(u-) (dN_ik(u) - Y_i(u) p(u)) / n(u)
 *                    - (F_k(t) - F_k(u)) (dN_i(u) - Y_i(u) h(u)) / (n(u) (1 - h(u))),
 * the terms of a product of hazards as in `clustered-kaplan-meier.ts`; rows of a cluster are added
 * before squaring (Therneau and Grambsch 2000; Ying and Wei 1994 for the sum over clusters). With one
 * row per cluster it is the delta-method variance of `incidence-variance.ts` exactly. The influence is
 * linear in F_k(t), so that running sums suffice. Where the error vanishes though some have failed (one
 * patient, of whom one eye failed) it is the delta-method one, widened by the rows a cluster.
 *
 * Where all patients give both eyes 95% limits hold the true incidence in 92 to 99% of samples,
 * those of the delta method in 90 to 99% (counted in the tables of real coverage among the tests).
 */
import {
  type AalenJohansenInput,
  aalenJohansen,
  type CauseIncidence,
  type CumulativeIncidence,
  incidenceLimits,
} from "./aalen-johansen.ts";
import { requireSameLength } from "./argument-checks.ts";
import { clustersAtRisk, unseenError } from "./clusters-at-risk.ts";
import { codeGroups, type GroupLabel } from "./group-codes.ts";
import { survivalLimits } from "./survival-limits.ts";
import { indexTimes } from "./time-index.ts";

export type ClusteredIncidenceInput = Pick<
  AalenJohansenInput,
  "time" | "cause" | "causes" | "limits" | "level"
> & { readonly cluster: ArrayLike<GroupLabel> };

/** The incidences as `aalenJohansen` gives them, with clustered standard errors and limits. */
export function clusteredAalenJohansen(input: ClusteredIncidenceInput): CumulativeIncidence {
  const { time, cause, cluster } = input;
  requireSameLength({ time, cluster });
  const curves = aalenJohansen(input);
  const { position, times } = indexTimes(time);
  const { labels, codes } = codeGroups(cluster, undefined, "cluster");
  const leaving: number[][] = Array.from(times, () => []);
  position.forEach((at, row) => {
    leaving[at]!.push(row);
  });
  const rows: Rows = { leaving, codes, cause, clusters: labels.length };
  const atRisk = clustersAtRisk(time, cluster);
  const causes = curves.causes.map((curve) => {
    const [clusters = 1] = atRisk;
    const standardError = clusteredErrors(curves, curve, rows).map((error, j) =>
      unseenError(error, { independent: curve.standardError[j]!, rows: time.length, clusters }),
    );
    const limitsAt = survivalLimits(curves.limits, curves.level);
    return {
      ...curve,
      standardError,
      ...incidenceLimits({ ...curve, standardError, atRisk }, limitsAt),
    };
  });
  return { ...curves, causes, clustersAtRisk: atRisk };
}

interface Rows {
  /** By time: the rows that leave then. */
  readonly leaving: readonly (readonly number[])[];
  readonly codes: Int32Array;
  readonly cause: ArrayLike<number>;
  readonly clusters: number;
}

/** The error of one cause's incidence at each time. */
function clusteredErrors(
  { atRisk, survival, causes }: CumulativeIncidence,
  curve: CauseIncidence,
  { leaving, codes, cause, clusters }: Rows,
): Float64Array {
  const sums = new InfluenceSums(clusters, codes);
  return curve.incidence.map((reached, j) => {
    const n = atRisk[j]!;
    const before = j === 0 ? 1 : survival[j - 1]!;
    const events = causes.reduce((sum, each) => sum + each.events[j]!, 0);
    // Once nobody is left the incidence stays where it is, and F(t) - F(u) is 0 for ever after.
    const share = survival[j]! > 0 ? 1 / (n - events) : 0;
    const own = before / n;
    sums.stay(own * (curve.events[j]! / n), share * (events / n), reached);
    for (const row of leaving[j]!) {
      const isOwn = cause[row] === curve.cause;
      sums.leave(row, isOwn ? own : 0, cause[row] === 0 ? 0 : share, reached);
    }
    return Math.sqrt(Math.max(0, sums.squares(reached)));
  });
}

/**
 * The sum over clusters of (fixed + slope F + members (stayed + staySlope F))^2: what rows that have
 * left keep, and what every row still there has gathered, as coefficients of 1 and F.
 */
class InfluenceSums {
  private readonly codes: Int32Array;
  private readonly members: Float64Array;
  private readonly fixed: Float64Array;
  private readonly slope: Float64Array;
  private stayed = 0;
  private staySlope = 0;

  constructor(clusters: number, codes: Int32Array) {
    this.codes = codes;
    this.members = new Float64Array(clusters);
    this.fixed = new Float64Array(clusters);
    this.slope = new Float64Array(clusters);
    for (const code of codes) this.members[code] = this.members[code]! + 1;
  }

  /** A time passes for every row still there. */
  stay(own: number, all: number, reached: number): void {
    this.stayed -= own + all * reached;
    this.staySlope += all;
  }

  /** A row leaves, with its own failure where it has one. */
  leave(row: number, own: number, all: number, reached: number): void {
    const code = this.codes[row]!;
    this.members[code] = this.members[code]! - 1;
    this.fixed[code] = this.fixed[code]! + this.stayed + own + all * reached;
    this.slope[code] = this.slope[code]! + this.staySlope - all;
  }

  squares(incidence: number): number {
    const here = this.stayed + this.staySlope * incidence;
    let sum = 0;
    for (let g = 0; g < this.members.length; g++) {
      sum += (this.fixed[g]! + this.slope[g]! * incidence + this.members[g]! * here) ** 2;
    }
    return sum;
  }
}
