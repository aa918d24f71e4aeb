/**
 * Follow-up with competing causes arranged for the partial likelihood of the subdistribution hazard
 * (Fine and Gray 1999).
 *
 * Whoever failed of another cause stays at risk of the cause with the weight G(t-) / G(T-): the chance
 * of being still uncensored just before t, given that of just before the own time T. G is the
 * Kaplan–Meier estimate of staying uncensored. At equal times failures come before censoring: G just
 * before a time counts the censoring before it only. Those who fail at a time are still counted at risk
 * for the censoring of that time (not so in `reverse-kaplan-meier.ts`): the custom of the programs for
 * this model, with which the numbers agree.
 */
import { requireNumbers, requireSameLength } from "./argument-checks.ts";
import { coxColumns } from "./cox-columns.ts";
import { rowNumbers } from "./gather.ts";
import { indexTimes } from "./time-index.ts";

export interface SubdistributionInput {
  readonly time: ArrayLike<number>;
  /** 0 censored, otherwise the number of the cause. */
  readonly cause: ArrayLike<number>;
  /** The cause whose incidence is modelled; 1 unless said. */
  readonly of?: number;
  /** One column of numbers per covariate. */
  readonly covariates: readonly ArrayLike<number>[];
  /** The covariates' names; x1, x2, ... unless given. */
  readonly names?: readonly string[];
}

export interface SubdistributionData {
  /** Distinct times, ascending. */
  readonly times: Float64Array;
  /** By row, the position of its time. */
  readonly position: Int32Array;
  /** By row: 0 censored, 1 the cause, 2 another. */
  readonly kind: Uint8Array;
  /** By time, how many failed of the cause and were censored, and how many had come so far. */
  readonly failed: Float64Array;
  readonly censored: Float64Array;
  readonly atRisk: Float64Array;
  /** By time, the estimate of staying uncensored just before it. */
  readonly uncensored: Float64Array;
  /** Centred covariates, one column each, and what was taken from them. */
  readonly columns: readonly Float64Array[];
  readonly means: Float64Array;
  readonly events: number;
}

/** Arranges the input; refuses missing values, and columns of different lengths, by name. */
export function subdistributionData(input: SubdistributionInput): SubdistributionData {
  const { time, cause, of = 1, covariates, names } = input;
  requireSameLength({ time, cause });
  requireCauseNumber(of);
  covariates.forEach((column, c) => {
    const name = names?.[c] ?? `x${c + 1}`;
    requireSameLength({ time, [name]: column });
    requireNumbers(name, column);
  });
  const kind = Uint8Array.from({ length: time.length }, (_, row) => kindOf(cause[row], row, of));
  const { times, position } = indexTimes(time);
  const counts = countsByTime({ times, position, kind });
  const even = new Float64Array(time.length).fill(1);
  const rows = { order: rowNumbers(time.length), weight: even, eventWeight: even };
  const { columns, means } = coxColumns(covariates, rows);
  const events = counts.failed.reduce((sum, number) => sum + number, 0);
  return { times, position, kind, ...counts, columns, means, events };
}

/** Refuses what is not the number of a cause. */
export function requireCauseNumber(of: number): void {
  if (!(Number.isInteger(of) && of > 0)) {
    throw new RangeError(`of is ${of}; expected the number of a cause, from 1`);
  }
}

function kindOf(cause: number | undefined, row: number, of: number): 0 | 1 | 2 {
  if (cause === undefined || !Number.isInteger(cause) || cause < 0) {
    throw new RangeError(`cause[${row}] is ${cause}; expected 0 or the number of a cause`);
  }
  if (cause === 0) return 0;
  return cause === of ? 1 : 2;
}

function countsByTime(rows: Pick<SubdistributionData, "times" | "position" | "kind">) {
  const { times, position, kind } = rows;
  const [failed, censored, leaving] = [0, 1, 2].map(() => new Float64Array(times.length));
  position.forEach((at, row) => {
    leaving![at] = leaving![at]! + 1;
    if (kind[row] === 1) failed![at] = failed![at]! + 1;
    if (kind[row] === 0) censored![at] = censored![at]! + 1;
  });
  const atRisk = new Float64Array(times.length);
  let staying = 0;
  for (let at = times.length - 1; at >= 0; at--) {
    staying += leaving![at]!;
    atRisk[at] = staying;
  }
  const uncensored = new Float64Array(times.length);
  let share = 1;
  for (let at = 0; at < times.length; at++) {
    uncensored[at] = share;
    share *= 1 - censored![at]! / atRisk[at]!;
  }
  return { failed: failed!, censored: censored!, atRisk, uncensored };
}
