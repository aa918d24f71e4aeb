import fc from "fast-check";
import type { TwoByTwo } from "../../src/statistics/two-by-two.ts";
import { partOf } from "./even-numbers.ts";

/** A table from failed and total of the first group, then of the second. */
export function tableOf(counts: readonly number[]): TwoByTwo {
  const [x1, n1, x2, n2] = counts;
  return { first: { failed: x1!, total: n1! }, second: { failed: x2!, total: n2! } };
}

const part = partOf(1, 60);

/** Tables with someone in each group. */
export const tables: fc.Arbitrary<TwoByTwo> = fc.record({ first: part, second: part });
