/**
 * The Kaplan–Meier curve of eyes with a standard error that allows for two eyes of one patient.
 *
 * The infinitesimal jackknife: the influence of row i on ln S(t) is
 *   sum over event times u <= t of [Y_i(u) d(u) / (n(u) (n(u) - d(u))) - dN_i(u) / (n(u) - d(u))],
 * rows of a cluster are added before squaring, and the variance of S(t) is S(t)^2 times the sum of
 * squares over clusters (Therneau and Grambsch 2000; Ying and Wei 1994). With one row per cluster it
 * is Greenwood's formula exactly. The sums of squares are updated as rows come and go, so the work
 * grows with the number of rows, not with rows times times.
 *
 * The 95% log-log limits hold the true survival in 93 to 97% of samples of 20 to 500 eyes, whether 5, 10 or
 * 100% of patients give both; Greenwood's fall to 90% where all do (counted in the tables of real coverage
 * among the tests).
 */
import { readEvent, requireSameLength } from "./argument-checks.ts";
import { entryPosition, readWeight } from "./event-tally.ts";
import { codeGroups, type GroupLabel } from "./group-codes.ts";
import { type KaplanMeierInput, kaplanMeier, type SurvivalCurve } from "./kaplan-meier.ts";
import { survivalLimits } from "./survival-limits.ts";
import { indexTimes, type TimeIndex } from "./time-index.ts";

/** What is left of terms that cancel, as where one eye of each patient fails on a day, is no error. */
const ROUNDING = 1e-12;

/** The curve as `kaplanMeier` gives it, with clustered standard error and limits. */
export function clusteredKaplanMeier(
  input: KaplanMeierInput & { readonly cluster: ArrayLike<GroupLabel> },
): SurvivalCurve {
  requireSameLength({ time: input.time, cluster: input.cluster });
  const curve = kaplanMeier(input);
  const relativeErrors = clusteredErrors(curve, input);
  const limitsAt = survivalLimits(curve.limits, curve.level);
  const { length } = relativeErrors;
  const standardError = new Float64Array(length);
  const lower = new Float64Array(length);
  const upper = new Float64Array(length);
  let bounds: readonly [number, number] = [0, 1];
  for (let j = 0; j < length; j++) {
    const survival = curve.survival[j]!;
    const relativeError = relativeErrors[j]!;
    const isOver = j > 0 && curve.survival[j - 1] === 0;
    if (!isOver) bounds = limitsAt({ survival, relativeError, atRisk: curve.atRisk[j]! });
    standardError[j] = survival * relativeError;
    lower[j] = bounds[0];
    upper[j] = bounds[1];
  }
  return { ...curve, standardError, lower, upper };
}

/** SE(S) / S at each time of the curve; NaN once S is 0. */
function clusteredErrors(
  curve: SurvivalCurve,
  input: KaplanMeierInput & { readonly cluster: ArrayLike<GroupLabel> },
): Float64Array {
  const index = indexTimes(input.time);
  const { labels, codes } = codeGroups(input.cluster, undefined, "cluster");
  const sums = new ClusterSums(labels.length);
  const arrivals = rowsByPlace(arrivalsOf(index, input), index.times.length + 1);
  const leavings = rowsByPlace(index.position, index.times.length);
  const errors = new Float64Array(curve.time.length);
  let hazard = 0;
  const enter = (place: number) => {
    for (let k = arrivals.starts[place]!; k < arrivals.starts[place + 1]!; k++) {
      const row = arrivals.rows[k]!;
      sums.enter(codes[row]!, readWeight(input.weight, row), hazard);
    }
  };
  enter(0);
  for (let j = 0; j < errors.length; j++) {
    const surviving = curve.atRisk[j]! - curve.events[j]!;
    const events = curve.events[j]!;
    if (curve.survival[j]! > 0 && events > 0) hazard += events / (curve.atRisk[j]! * surviving);
    for (let k = leavings.starts[j]!; k < leavings.starts[j + 1]!; k++) {
      const row = leavings.rows[k]!;
      const drop = readEvent(input.event[row], row) === 1 ? 1 / surviving : 0;
      sums.leave(codes[row]!, readWeight(input.weight, row), hazard - drop);
    }
    errors[j] = curve.survival[j]! > 0 ? Math.sqrt(Math.max(0, sums.squares(hazard))) : Number.NaN;
    enter(j + 1);
  }
  return errors;
}

/** The sum over clusters of (members C + fixed)^2, kept as coefficients of C^2, C and 1. */
class ClusterSums {
  private readonly members: Float64Array;
  private readonly fixed: Float64Array;
  private quadratic = 0;
  private linear = 0;
  private constant = 0;

  constructor(clusters: number) {
    this.members = new Float64Array(clusters);
    this.fixed = new Float64Array(clusters);
  }

  /** A row under observation from now on, when the running sum is `hazard`. */
  enter(cluster: number, weight: number, hazard: number): void {
    this.change(cluster, weight, -weight * hazard);
  }

  /** A row that leaves with `gained` in place of its share of the running sum. */
  leave(cluster: number, weight: number, gained: number): void {
    this.change(cluster, -weight, weight * gained);
  }

  squares(hazard: number): number {
    const members = this.quadratic * hazard * hazard;
    const sum = members + this.linear * hazard + this.constant;
    return sum > ROUNDING * (members + this.constant) ? sum : 0;
  }

  private change(cluster: number, members: number, fixed: number): void {
    this.add(cluster, -1);
    this.members[cluster] = this.members[cluster]! + members;
    this.fixed[cluster] = this.fixed[cluster]! + fixed;
    this.add(cluster, 1);
  }

  private add(cluster: number, sign: number): void {
    const members = this.members[cluster]!;
    const fixed = this.fixed[cluster]!;
    this.quadratic += sign * members * members;
    this.linear += sign * 2 * members * fixed;
    this.constant += sign * fixed * fixed;
  }
}

/** Of each row one more than the last position before it enters: 0 where it is there from the start. */
function arrivalsOf(index: TimeIndex, { time, entry }: KaplanMeierInput): Int32Array {
  const places = new Int32Array(time.length);
  for (let row = 0; entry !== undefined && row < places.length; row++) {
    places[row] = entryPosition(index, { entry, time, row }) + 1;
  }
  return places;
}

/** The rows in order of their place, and where those of each begin (a counting sort). */
function rowsByPlace(places: Int32Array, count: number) {
  const starts = new Int32Array(count + 1);
  for (let row = 0; row < places.length; row++) {
    starts[places[row]! + 1] = starts[places[row]! + 1]! + 1;
  }
  for (let place = 1; place <= count; place++) starts[place] = starts[place]! + starts[place - 1]!;
  const next = starts.slice();
  const rows = new Int32Array(places.length);
  for (let row = 0; row < places.length; row++) {
    const at = next[places[row]!]!;
    rows[at] = row;
    next[places[row]!] = at + 1;
  }
  return { rows, starts };
}
