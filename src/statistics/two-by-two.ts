/**
 * Two independent groups with a count of failures each: the shape of every comparison of two
 * proportions, in the order first against second.
 */
import { requirePartOfWhole } from "./argument-checks.ts";

export interface Part {
  readonly failed: number;
  readonly total: number;
}

export interface TwoByTwo {
  readonly first: Part;
  readonly second: Part;
}

/** The four cells and the grand total. */
export interface Cells {
  readonly firstFailed: number;
  readonly firstHeld: number;
  readonly secondFailed: number;
  readonly secondHeld: number;
  readonly total: number;
}

/** The cells of a table; refuses counts that are not whole or larger than their total. */
export function cellsOf({ first, second }: TwoByTwo): Cells {
  requirePartOfWhole(first.failed, first.total);
  requirePartOfWhole(second.failed, second.total);
  return {
    firstFailed: first.failed,
    firstHeld: first.total - first.failed,
    secondFailed: second.failed,
    secondHeld: second.total - second.failed,
    total: first.total + second.total,
  };
}

/** Whether either group has nobody, so that nothing about it can be estimated. */
export function hasEmptyGroup({ first, second }: TwoByTwo): boolean {
  return first.total === 0 || second.total === 0;
}
