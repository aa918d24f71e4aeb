/** How many patients rows belong to; a row that is not named there stands for one of its own. */
export function patientCount(
  rows: ReadonlySet<number> | undefined,
  patientOf: ReadonlyMap<number, string>,
): number {
  return new Set([...(rows ?? [])].map((row) => patientOf.get(row) ?? row)).size;
}
