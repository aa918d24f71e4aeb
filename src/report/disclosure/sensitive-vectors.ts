import type { DistinctSet } from "./counted-set.ts";
import type { PatientsOfAtoms } from "./patients-of-atoms.ts";

/**
 * What must not be had from a report: every count behind which fewer patients than the threshold
 * stand, and every such difference between a count and another within it (a total and its part, a
 * curve's eyes at risk now and then, the same question before and after a change).
 * As vectors over the atoms, each once.
 */
export function sensitiveVectors(
  sets: readonly DistinctSet[],
  threshold: number,
  patients: PatientsOfAtoms,
): Uint8Array[] {
  const found = new Map<string, Uint8Array>();
  const keep = (vector: Uint8Array) => found.set(vector.join(""), vector);
  for (const set of sets) if (set.patients < threshold) keep(set.atoms);
  const most = (threshold - 1) * patients.mostRows;
  for (const outer of sets) {
    for (const inner of sets) {
      const difference = outer.size - inner.size;
      if (difference < 1 || difference > most || !isWithin(inner, outer)) continue;
      const rest = outer.atoms.map((each, atom) => each - (inner.atoms[atom] ?? 0));
      if (patients.countOf(rest) < threshold) keep(rest);
    }
  }
  return [...found.values()];
}

export function isWithin(inner: DistinctSet, outer: DistinctSet): boolean {
  return inner.atoms.every((each, atom) => each <= (outer.atoms[atom] ?? 0));
}
