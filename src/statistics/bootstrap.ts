/**
 * The bootstrap by patient: how a statistic varies when patients, each with all their eyes, are drawn
 * again with replacement (Efron 1979; Davison and Hinkley 1997, section 3.8, for clusters).
 *
 * Limits: the percentile interval, or BCa, bias-corrected and accelerated (Efron, Journal of the American
 * Statistical Association 1987;82:171), with the acceleration from the statistic without each patient in
 * turn. A draw in which the statistic is not estimable is counted and left out; with more than one in
 * twenty of them there are no limits, since what is left is no fair sample.
 */
import { requireLevel } from "./argument-checks.ts";
import { normalLowerTail, normalQuantile } from "./distributions.ts";
import { codeGroups, type GroupLabel } from "./group-codes.ts";
import { rowsByCode } from "./group-risk-sets.ts";
import type { Interval } from "./interval.ts";
import { type RandomSource, randomSource } from "./random-source.ts";
import { sampleQuantile } from "./sample-quantile.ts";

export interface BootstrapInput {
  /** Each row's patient. */
  readonly cluster: ArrayLike<GroupLabel>;
  /** The statistic of the given rows (a row may be there more than once); null: not estimable. */
  readonly statistic: (rows: Int32Array) => number | null;
  /** Fixes the draws. */
  readonly seed: number;
  /** How many draws; 1000 unless said. */
  readonly draws?: number;
  /** "percentile" unless said. */
  readonly method?: "percentile" | "BCa";
  readonly level?: number;
}

export interface Bootstrap {
  readonly estimate: number;
  /** The standard deviation over draws; NaN with fewer than two. */
  readonly standardError: number;
  /** The mean over draws less the estimate. */
  readonly bias: number;
  /** Null when the statistic failed in more than one draw in twenty. */
  readonly interval: Interval | null;
  /** The values of the draws that were estimable, in the order drawn. */
  readonly values: Float64Array;
  readonly notEstimable: number;
}

const MOST_FAILED = 0.05;

/** The bootstrap of a statistic; null when it is not estimable on the rows themselves. */
export function bootstrap(input: BootstrapInput): Bootstrap | null {
  const { cluster, statistic, seed, draws = 1000, method = "percentile", level = 0.95 } = input;
  requireLevel(level);
  if (!Number.isInteger(draws) || draws < 1) {
    throw new RangeError(`draws is ${draws}; expected a whole number of 1 or more`);
  }
  const patients = rowsByCode(codeGroups(cluster));
  const estimate = statistic(Int32Array.from({ length: cluster.length }, (_, i) => i));
  if (estimate === null) return null;
  const random = randomSource(seed);
  const drawn = Array.from({ length: draws }, () => statistic(drawRows(patients, random)));
  const values = Float64Array.from(drawn.filter((value): value is number => value !== null));
  const notEstimable = draws - values.length;
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const limits = () =>
    method === "BCa"
      ? bcaLimits(values, { estimate, without: leaveOneOut(patients, statistic), level })
      : percentileLimits(values, level);
  return {
    estimate,
    standardError: Math.sqrt(squares / (values.length - 1)),
    bias: mean - estimate,
    interval: notEstimable > MOST_FAILED * draws ? null : limits(),
    values,
    notEstimable,
  };
}

/** The quantiles of the draws that leave (1 - level) / 2 on either side. */
export function percentileLimits(values: ArrayLike<number>, level: number): Interval {
  const tail = (1 - level) / 2;
  const lower = sampleQuantile(values, tail) ?? Number.NaN;
  const upper = sampleQuantile(values, 1 - tail) ?? Number.NaN;
  return { lower, upper, level, method: "bootstrap by patient, percentile" };
}

/** BCa limits from the draws and the statistic `without` each patient. */
export function bcaLimits(
  values: ArrayLike<number>,
  source: {
    readonly estimate: number;
    readonly without: ArrayLike<number>;
    readonly level: number;
  },
): Interval {
  const { estimate, without, level } = source;
  const draws = Array.from(values);
  const below = draws.filter((value) => value < estimate).length;
  const equal = draws.filter((value) => value === estimate).length;
  const share = (below + equal / 2) / draws.length;
  // every draw on one side of the estimate: half a draw is put on the other, to keep the limit finite
  const kept = Math.min(1 - 0.5 / draws.length, Math.max(0.5 / draws.length, share));
  const bias = normalQuantile(kept);
  const acceleration = accelerationOf(without);
  const limit = (tail: number) => {
    const moved = bias + normalQuantile(tail);
    const place = normalLowerTail(bias + moved / (1 - acceleration * moved));
    return sampleQuantile(draws, place) ?? Number.NaN;
  };
  const tail = (1 - level) / 2;
  const method = "bootstrap by patient, BCa";
  return { lower: limit(tail), upper: limit(1 - tail), level, method };
}

/** The rows of as many patients as there are, drawn with replacement. */
function drawRows(patients: readonly Int32Array[], random: RandomSource): Int32Array {
  const drawn = patients.map(() => patients[random.integer(patients.length)]!);
  const rows = new Int32Array(drawn.reduce((sum, part) => sum + part.length, 0));
  let filled = 0;
  for (const part of drawn) {
    rows.set(part, filled);
    filled += part.length;
  }
  return rows;
}

function leaveOneOut(
  patients: readonly Int32Array[],
  statistic: (rows: Int32Array) => number | null,
): number[] {
  const values = patients.map((_, left) =>
    statistic(Int32Array.from(patients.flatMap((rows, p) => (p === left ? [] : [...rows])))),
  );
  return values.filter((value): value is number => value !== null);
}

/** A sixth of the skewness of the influence of patients; 0 when they have none. */
function accelerationOf(without: ArrayLike<number>): number {
  const values = Array.from(without);
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  const sum = (power: number) =>
    values.reduce((total, value) => total + (mean - value) ** power, 0);
  const squares = sum(2);
  return squares > 0 ? sum(3) / (6 * squares ** 1.5) : 0;
}
