import type { CellValue } from "./table.ts";

/**
 * Codes in place of patients' identifiers: by the function given, else P001, P002 … in the order
 * in which patients first appear. The same identifier gives the same code; missing stays missing.
 */
export function pseudonyms(
  patients: readonly CellValue[],
  pseudonym?: (patient: string) => string,
): readonly CellValue[] {
  const known = new Map<string, string>();
  for (const patient of patients) {
    if (typeof patient === "string" && !known.has(patient)) known.set(patient, "");
  }
  const width = Math.max(3, String(known.size).length);
  let count = 0;
  for (const patient of known.keys()) {
    count++;
    known.set(patient, pseudonym?.(patient) ?? `P${String(count).padStart(width, "0")}`);
  }
  return patients.map((patient) => (typeof patient === "string" ? known.get(patient)! : null));
}
