/**
 * Gray's test of equal cumulative incidence of a cause in two or more groups.
 *
 * With Y_g at risk, S_g(t-) overall survival and F_g(t-) incidence in group g, R_g = Y_g (1 - F_g) / S_g
 * counts those at risk in the sense of the incidence (those who failed of another cause stay, as far
 * as they would still be observed). Group g expects d R_g / sum R of the d events of the cause, with
 * weight (1 - F0(t-))^rho, F0 the pooled estimate. The variance is Gray's (Annals of Statistics
 * 1988;16:1141), each group's counting processes taken with the correction for ties as in sampling
 * without replacement. Strata add up. Degrees: groups that had anyone at risk less one. Delayed entry
 * is refused: the variance is published for rows observed from the start only.
 */
import { requireNumbers, requireSameLength } from "./argument-checks.ts";
import { chiSquareUpperTail } from "./distributions.ts";
import { GrayStratum } from "./gray-stratum.ts";
import { codeGroups, type GroupLabel, rowsByCode } from "./group-codes.ts";
import { requireCauseNumber } from "./subdistribution-data.ts";
import { quadraticForm } from "./symmetric-solve.ts";
import { indexTimes } from "./time-index.ts";

export interface GrayInput {
  readonly time: ArrayLike<number>;
  /** 0 censored, otherwise the number of the cause. */
  readonly cause: ArrayLike<number>;
  readonly group: ArrayLike<GroupLabel>;
  /** The cause that is compared; 1 unless said. */
  readonly of?: number;
  readonly strata?: ArrayLike<GroupLabel>;
  readonly groups?: readonly GroupLabel[];
  /** 0 unless said. */
  readonly rho?: number;
}

export interface GrayTest {
  readonly groups: readonly GroupLabel[];
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
}

/** The test; p is 1 on 0 degrees when there is nothing to compare. */
export function grayTest(input: GrayInput): GrayTest {
  refuseEntry(input);
  const { time, cause, group, strata, of = 1, rho = 0 } = input;
  requireSameLength({ time, cause, group, strata });
  requireCauseNumber(of);
  requireNumbers("rho", [rho], 0);
  const { labels, codes } = codeGroups(group, input.groups);
  const kinds = Uint8Array.from({ length: time.length }, (_, i) => kindOf(cause[i], i, of));
  const score = new Float64Array(labels.length);
  const variance = new Float64Array(labels.length ** 2);
  const everyone = [Int32Array.from({ length: time.length }, (_, i) => i)];
  const parts =
    strata === undefined ? everyone : rowsByCode(codeGroups(strata, undefined, "strata"));
  for (const rows of parts) {
    const stratum = runStratum(rows, { time, kinds, codes, groups: labels.length, rho });
    score.forEach((value, g) => {
      score[g] = value + stratum.score[g]!;
    });
    const added = stratum.variance();
    variance.forEach((value, cell) => {
      variance[cell] = value + added[cell]!;
    });
  }
  const { value, rank } = quadraticForm(variance, score);
  const pValue = chiSquareUpperTail(value, rank);
  return { groups: labels, chiSquare: value, degreesOfFreedom: rank, pValue };
}

/** Refuses what the published variance does not cover. */
function refuseEntry(input: GrayInput & { readonly entry?: unknown }): void {
  if (input.entry === undefined) return;
  throw new RangeError(
    "entry is given; Gray's test is for rows observed from the start: compare the hazards of the cause by a log-rank test with entry",
  );
}

/** 0 censored, 1 the cause of interest, 2 another. */
function kindOf(cause: number | undefined, row: number, of: number): number {
  if (cause === undefined || !Number.isInteger(cause) || cause < 0) {
    throw new RangeError(`cause[${row}] is ${cause}; expected a whole number of 0 or more`);
  }
  if (cause === 0) return 0;
  return cause === of ? 1 : 2;
}

function runStratum(
  rows: Int32Array,
  data: {
    time: ArrayLike<number>;
    kinds: Uint8Array;
    codes: Int32Array;
    groups: number;
    rho: number;
  },
): GrayStratum {
  const { time, kinds, codes, groups, rho } = data;
  const index = indexTimes(Float64Array.from(rows, (row) => time[row]!));
  const length = index.times.length;
  const counts = new Float64Array(length * groups * 3);
  rows.forEach((row, i) => {
    const cell = (index.position[i]! * groups + codes[row]!) * 3 + kinds[row]!;
    counts[cell] = counts[cell]! + 1;
  });
  const sizes = new Float64Array(groups);
  for (const row of rows) sizes[codes[row]!] = sizes[codes[row]!]! + 1;
  const stratum = new GrayStratum(sizes, rho);
  for (let j = 0; j < length; j++) {
    stratum.step(counts.subarray(j * groups * 3, (j + 1) * groups * 3));
  }
  return stratum;
}
