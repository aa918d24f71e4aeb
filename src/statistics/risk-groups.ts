/**
 * Rows in groups of rising predicted probability.
 *
 * Rows are cut at the quantiles of the probability (linear interpolation, type 7 of Hyndman and Fan 1996),
 * a row on a cut belonging below it; equal cuts merge, so there may be fewer groups than asked for.
 */
import { sampleQuantile } from "./sample-quantile.ts";

export interface GroupsOfRisk {
  /** By group, the largest predicted probability that belongs to it. */
  readonly upTo: readonly number[];
  /** By row, the number of its group. */
  readonly codes: Int32Array;
}

/** Groups of at least one row each; refuses a number of groups that is no whole number of 2 or more. */
export function groupsOfRisk(probability: ArrayLike<number>, groups: number): GroupsOfRisk {
  if (!Number.isInteger(groups) || groups < 2) {
    throw new RangeError(`groups is ${groups}; expected a whole number of 2 or more`);
  }
  const cuts = Array.from({ length: probability.length === 0 ? 0 : groups }, (_, g) => {
    return sampleQuantile(probability, (g + 1) / groups)!;
  });
  const distinct = cuts.filter((cut, g) => g === 0 || cut > cuts[g - 1]!);
  const place = (p: number) => {
    const found = distinct.findIndex((cut) => p <= cut);
    return found < 0 ? distinct.length - 1 : found;
  };
  const places = Int32Array.from({ length: probability.length }, (_, i) => place(probability[i]!));
  const used = distinct.map((_, g) => places.includes(g));
  const codeOf = used.map((_, g) => used.slice(0, g).filter(Boolean).length);
  return {
    upTo: distinct.filter((_, g) => used[g]),
    codes: places.map((g) => codeOf[g]!),
  };
}
