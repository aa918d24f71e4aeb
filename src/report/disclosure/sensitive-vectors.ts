import type { DistinctSet } from "./counted-set.ts";

/**
 * What must not be had from a report: every count from 1 to one less than the threshold, and
 * every difference of that size between a count and another within it (a total and its part, a
 * curve's eyes at risk now and then, the same question before and after a change).
 * As vectors over the atoms, each once.
 */
export function sensitiveVectors(sets: readonly DistinctSet[], threshold: number): Uint8Array[] {
  const found = new Map<string, Uint8Array>();
  const keep = (vector: Uint8Array) => found.set(vector.join(""), vector);
  for (const set of sets) if (set.size < threshold) keep(set.atoms);
  for (const outer of sets) {
    for (const inner of sets) {
      const difference = outer.size - inner.size;
      if (difference < 1 || difference >= threshold || !isWithin(inner, outer)) continue;
      keep(outer.atoms.map((each, atom) => each - (inner.atoms[atom] ?? 0)));
    }
  }
  return [...found.values()];
}

export function isWithin(inner: DistinctSet, outer: DistinctSet): boolean {
  return inner.atoms.every((each, atom) => each <= (outer.atoms[atom] ?? 0));
}
