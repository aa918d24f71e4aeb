/**
 * The bootstrap by patient: clusters of rows (both eyes of a patient are one) are drawn with
 * replacement, and a statistic is worked out afresh on the rows of those drawn (Efron 1979;
 * Davison and Hinkley 1997, Bootstrap Methods and their Application, section 3.8).
 *
 * Replicates on which the statistic cannot be worked out (null, NaN or infinite) are counted and
 * left out; with more than one in twenty of them there is no interval, since what is left is no
 * fair sample. The same seed gives the same replicates everywhere.
 */
import { requireCount, requireSameLength } from "./argument-checks.ts";
import { codeGroups, type GroupLabel } from "./group-codes.ts";
import { keptOver, mayPause } from "./long-work.ts";
import { seededRandom } from "./seeded-random.ts";

/** Replicates between two places where a long run may pause. */
const piece = 50;

/** A number from rows given by position, a row as often as it was drawn; null if there is none. */
export type RowStatistic = (rows: Int32Array) => number | null;

export interface BootstrapSample {
  /** How many rows there are. */
  readonly rows: number;
  /** The patient of each row; each row its own unless given. */
  readonly cluster?: ArrayLike<GroupLabel>;
  readonly statistic: RowStatistic;
}

export interface Bootstrap {
  /** The statistic on all rows. */
  readonly estimate: number;
  /** The statistic on each resample that had one, ascending. */
  readonly replicates: Float64Array;
  /** Resamples without one. */
  readonly undefinedReplicates: number;
  readonly clusters: number;
  readonly seed: number;
}

/** The bootstrap; null without rows or where the statistic has no value on all of them. */
export function bootstrap(
  sample: BootstrapSample,
  { seed, replicates = 2000 }: { seed: number; replicates?: number },
): Bootstrap | null {
  requireCount("replicates", replicates);
  const members = rowsByCluster(sample);
  const all = Int32Array.from({ length: sample.rows }, (_, i) => i);
  const run = keptOver(() => ({
    random: seededRandom(seed),
    estimate: members.length === 0 ? null : valueOn(all, sample),
    values: [] as number[],
    done: 0,
  }));
  const { random, estimate, values } = run;
  if (estimate === null) return null;
  for (let here = 1; run.done < replicates; here++) {
    const drawn = Array.from(members, () => members[random.below(members.length)]!);
    const value = valueOn(joined(drawn), sample);
    if (value !== null) values.push(value);
    run.done++;
    if (here % piece === 0) mayPause();
  }
  return {
    estimate,
    replicates: Float64Array.from(values).sort(),
    undefinedReplicates: replicates - values.length,
    clusters: members.length,
    seed,
  };
}

/** The statistic with each cluster left out in turn; null where any of them has none. */
export function jackknife(sample: BootstrapSample): Float64Array | null {
  const members = rowsByCluster(sample);
  const values = members.map((_, left) =>
    valueOn(joined(members.filter((_rows, c) => c !== left)), sample),
  );
  return values.every((value) => value !== null) ? Float64Array.from(values as number[]) : null;
}

/** The standard deviation of the replicates; null for fewer than two. */
export function bootstrapError({ replicates }: Bootstrap): number | null {
  const count = replicates.length;
  if (count < 2) return null;
  const mean = replicates.reduce((a, b) => a + b, 0) / count;
  const squares = replicates.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt(squares / (count - 1));
}

function rowsByCluster({ rows, cluster }: BootstrapSample): Int32Array[] {
  requireCount("rows", rows);
  if (cluster === undefined) return Array.from({ length: rows }, (_, i) => Int32Array.of(i));
  requireSameLength({ cluster, rows: { length: rows } });
  const { labels, codes } = codeGroups(cluster, undefined, "cluster");
  const members: number[][] = labels.map(() => []);
  codes.forEach((code, row) => {
    members[code]!.push(row);
  });
  return members.map((list) => Int32Array.from(list));
}

function joined(parts: readonly Int32Array[]): Int32Array {
  const all = new Int32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

function valueOn(rows: Int32Array, { statistic }: BootstrapSample): number | null {
  const value = statistic(rows);
  return value === null || !Number.isFinite(value) ? null : value;
}
