/** How many patients stand behind a sum of atoms: two eyes of one patient are two rows. */
export class PatientsOfAtoms {
  /** The most rows that one patient has. */
  readonly mostRows: number;
  readonly #byAtom: readonly (readonly (string | number)[])[];

  /** A row without a patient in the map stands for one of its own. */
  constructor(rowsOfAtoms: readonly (readonly number[])[], patientOf: ReadonlyMap<number, string>) {
    this.#byAtom = rowsOfAtoms.map((rows) => rows.map((row) => patientOf.get(row) ?? row));
    const rows = new Map<string | number, number>();
    for (const patient of this.#byAtom.flat()) rows.set(patient, (rows.get(patient) ?? 0) + 1);
    this.mostRows = Math.max(1, ...rows.values());
  }

  /** Of the atoms whose entry is not 0. */
  countOf(vector: ArrayLike<number>): number {
    const patients = new Set<string | number>();
    this.#byAtom.forEach((of, atom) => {
      if (vector[atom] !== 0) for (const patient of of) patients.add(patient);
    });
    return patients.size;
  }
}
