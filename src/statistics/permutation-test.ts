/**
 * The permutation test: how often a statistic is as large as the observed one when the group labels
 * are put into random order (Fisher 1935; Pitman 1937).
 *
 * p = (1 + permutations with a statistic at least as large) / (1 + permutations), which counts
 * the observed order among them and is never 0 (Phipson and Smyth 2010). The statistic should be
 * larger the more the groups differ: for a two-sided test of a difference, its absolute value.
 */
import { requireCount, requireSameLength } from "./argument-checks.ts";
import { codeGroups, type GroupLabel } from "./group-codes.ts";
import { seededRandom, shuffle } from "./seeded-random.ts";

export interface PermutationInput {
  /** The group of each row. */
  readonly group: ArrayLike<GroupLabel>;
  /** Worked out with the labels in the order of the rows; larger is more extreme. */
  readonly statistic: (group: readonly GroupLabel[]) => number;
  /** The patient of each row: labels then move between patients, all rows of one together. */
  readonly cluster?: ArrayLike<GroupLabel>;
  /** A block of each row: labels then move only within a block, such as the eyes of a patient. */
  readonly within?: ArrayLike<GroupLabel>;
}

export interface PermutationTest {
  readonly statistic: number;
  readonly pValue: number;
  readonly permutations: number;
  readonly seed: number;
}

/** The test; without rows its p is 1. Refuses a cluster whose rows differ in group. */
export function permutationTest(
  input: PermutationInput,
  { seed, permutations = 2000 }: { seed: number; permutations?: number },
): PermutationTest {
  requireCount("permutations", permutations);
  const group = Array.from(input.group);
  codeGroups(group); // refuses a missing label
  const random = seededRandom(seed);
  const blocks = unitsByBlock(input, group);
  const observed = input.statistic(group);
  const least = observed - 1e-12 * Math.abs(observed);
  let asLarge = 1;
  for (let r = 0; r < permutations; r++) {
    for (const block of blocks) {
      const labels = block.map((rows) => group[rows[0]!]!);
      shuffle(labels, random);
      block.forEach((rows, unit) => {
        for (const row of rows) group[row] = labels[unit]!;
      });
    }
    if (input.statistic(group) >= least) asLarge++;
  }
  return { statistic: observed, pValue: asLarge / (permutations + 1), permutations, seed };
}

/** Blocks of units that may change places, each unit a list of rows that share a label. */
function unitsByBlock(input: PermutationInput, group: readonly GroupLabel[]): number[][][] {
  const { cluster, within } = input;
  requireSameLength({ group, cluster, within });
  if (cluster !== undefined && within !== undefined) {
    throw new RangeError("both cluster and within are given; expected one of them");
  }
  const rows = Array.from(group.keys());
  if (within !== undefined) return gather(rows, within).map((block) => block.map((row) => [row]));
  if (cluster === undefined) return [rows.map((row) => [row])];
  const units = gather(rows, cluster);
  for (const unit of units) {
    const other = unit.find((row) => group[row] !== group[unit[0]!]);
    if (other !== undefined) {
      throw new RangeError(
        `cluster ${cluster[other]} has rows in groups ${group[unit[0]!]} and ${group[other]}; ` +
          "expected one group (use within for labels that differ inside a cluster)",
      );
    }
  }
  return [units];
}

function gather(rows: readonly number[], by: ArrayLike<GroupLabel>): number[][] {
  const { labels, codes } = codeGroups(by);
  const parts: number[][] = labels.map(() => []);
  for (const row of rows) parts[codes[row]!]!.push(row);
  return parts;
}
