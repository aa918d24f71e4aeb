import type { DistinctSet } from "./counted-set.ts";
import { isWithin } from "./sensitive-vectors.ts";

export interface Division {
  readonly total: DistinctSet;
  /** Disjoint, and together the whole; the one to be kept longest first. */
  readonly parts: readonly DistinctSet[];
}

/** Every total with the rows or the columns of a table that divide it without a rest. */
export function divisionsOf(sets: readonly DistinctSet[]): Division[] {
  const families = new Map<string, DistinctSet[]>();
  for (const set of sets) {
    for (const family of set.families) {
      families.set(family, [...(families.get(family) ?? []), set]);
    }
  }
  return sets.flatMap((total) =>
    [...families.values()].flatMap((family) => {
      const parts = family.filter((each) => each.size < total.size && isWithin(each, total));
      return isDivision(total, parts) ? [{ total, parts }] : [];
    }),
  );
}

function isDivision(total: DistinctSet, parts: readonly DistinctSet[]): boolean {
  if (parts.reduce((sum, { size }) => sum + size, 0) !== total.size) return false;
  return total.atoms.every(
    (each, atom) => parts.reduce((sum, { atoms }) => sum + (atoms[atom] ?? 0), 0) === each,
  );
}
