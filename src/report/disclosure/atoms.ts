import type { CountedSet, DistinctSet } from "./counted-set.ts";

export interface Atoms {
  /** Rows in each atom; never 0. */
  readonly sizes: readonly number[];
  /** In the order in which each was met first. */
  readonly sets: readonly DistinctSet[];
}

/**
 * The atoms of the sets: rows that belong to the same sets and so cannot be told apart by any of
 * the counts. Every count is then a sum over atoms with coefficients 0 and 1.
 *
 * Only atoms that hold rows are kept, as if the reader knew which are empty: more is then known
 * to the reader than in fact, never less. A set without rows is no count to be protected.
 */
export function atomsOf(counted: readonly CountedSet[]): Atoms {
  const sets = counted.filter(({ rows }) => rows.size > 0);
  const memberships = membershipsOf(sets);
  const atomOf = new Map<string, number>();
  const sizes: number[] = [];
  const members: number[][] = [];
  for (const of of memberships.values()) {
    const signature = of.join(",");
    const atom = atomOf.get(signature) ?? sizes.length;
    if (atom === sizes.length) members.push(of);
    atomOf.set(signature, atom);
    sizes[atom] = (sizes[atom] ?? 0) + 1;
  }
  const vectors = sets.map(() => new Uint8Array(sizes.length));
  members.forEach((of, atom) => {
    for (const set of of) (vectors[set] as Uint8Array)[atom] = 1;
  });
  return { sizes, sets: distinct(sets, vectors) };
}

/** For each row the positions of the sets it belongs to, in ascending order. */
function membershipsOf(sets: readonly CountedSet[]): Map<number, number[]> {
  const memberships = new Map<number, number[]>();
  sets.forEach(({ rows }, position) => {
    for (const row of rows) {
      const of = memberships.get(row);
      if (of === undefined) memberships.set(row, [position]);
      else of.push(position);
    }
  });
  return memberships;
}

function distinct(sets: readonly CountedSet[], vectors: readonly Uint8Array[]): DistinctSet[] {
  const positions = new Map<string, number[]>();
  vectors.forEach((vector, position) => {
    const same = vector.join("");
    positions.set(same, [...(positions.get(same) ?? []), position]);
  });
  return [...positions.values()].map((of) => {
    const counted = of.map((position) => sets[position] as CountedSet);
    return {
      keys: counted.map(({ key }) => key),
      isLead: counted.some(({ isLead }) => isLead === true),
      families: [...new Set(counted.flatMap(({ families }) => families))],
      size: counted[0]?.rows.size ?? 0,
      atoms: vectors[of[0] as number] as Uint8Array,
    };
  });
}
