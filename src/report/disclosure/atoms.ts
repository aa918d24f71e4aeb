import type { CountedSet, DistinctSet } from "./counted-set.ts";
import { PatientsOfAtoms } from "./patients-of-atoms.ts";

export interface Atoms {
  /** Rows in each atom; never 0. */
  readonly sizes: readonly number[];
  /** In the order in which each was met first. */
  readonly sets: readonly DistinctSet[];
  readonly patients: PatientsOfAtoms;
}

/**
 * The atoms of the sets: rows that belong to the same sets and so cannot be told apart by any of
 * the counts. Every count is then a sum over atoms with coefficients 0 and 1.
 *
 * Only atoms that hold rows are kept, as if the reader knew which are empty: more is then known
 * to the reader than in fact, never less. A set without rows is no count to be protected.
 *
 * @param patientOf the patient of a row; a row that is not named there stands for one of its own
 */
export function atomsOf(
  counted: readonly CountedSet[],
  patientOf: ReadonlyMap<number, string> = new Map(),
): Atoms {
  const sets = counted.filter(({ rows }) => rows.size > 0);
  const atomOf = new Map<string, number>();
  const rows: number[][] = [];
  const members: number[][] = [];
  for (const [row, of] of membershipsOf(sets)) {
    const signature = of.join(",");
    const atom = atomOf.get(signature) ?? rows.length;
    if (atom === rows.length) members.push(of);
    atomOf.set(signature, atom);
    const others = rows[atom];
    if (others === undefined) rows.push([row]);
    else others.push(row);
  }
  const vectors = sets.map(() => new Uint8Array(rows.length));
  members.forEach((of, atom) => {
    for (const set of of) (vectors[set] as Uint8Array)[atom] = 1;
  });
  const patients = new PatientsOfAtoms(rows, patientOf);
  const sizes = rows.map(({ length }) => length);
  return { sizes, patients, sets: distinct(sets, vectors, patients) };
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

function distinct(
  sets: readonly CountedSet[],
  vectors: readonly Uint8Array[],
  patients: PatientsOfAtoms,
): DistinctSet[] {
  const positions = new Map<string, number[]>();
  vectors.forEach((vector, position) => {
    const same = vector.join("");
    positions.set(same, [...(positions.get(same) ?? []), position]);
  });
  return [...positions.values()].map((of) => {
    const counted = of.map((position) => sets[position] as CountedSet);
    const atoms = vectors[of[0] as number] as Uint8Array;
    return {
      keys: counted.map(({ key }) => key),
      isLead: counted.some(({ isLead }) => isLead === true),
      families: [...new Set(counted.flatMap(({ families }) => families))],
      size: counted[0]?.rows.size ?? 0,
      patients: patients.countOf(atoms),
      atoms,
    };
  });
}
