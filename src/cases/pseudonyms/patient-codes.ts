import type { Problem } from "../../problem/problem.ts";
import { isMissing } from "../missing-value.ts";
import type { ReadableCases } from "../open-cases.ts";

/** Patients of all files read together, each with its code. */
export interface PatientCodes {
  /** By identifier as written. */
  readonly codes: ReadonlyMap<string, string>;
  readonly problems: readonly Problem[];
}

/**
 * Codes in place of patients' identifiers: by the function given, else P001, P002 … in the order
 * in which patients first appear, so that files that come later change none. The same identifier
 * gives the same code; missing stays missing. Should two identifiers be given one code, they are
 * told apart by a number, and that is said.
 */
export function patientCodes(
  written: readonly (readonly string[])[],
  pseudonym?: (patient: string) => string,
): PatientCodes {
  const codes = new Map<string, string>();
  const taken = new Set<string>();
  const problems: Problem[] = [];
  for (const values of written) {
    for (const patient of values) {
      if (codes.has(patient) || isMissing(patient)) continue;
      if (pseudonym === undefined) {
        codes.set(patient, `P${String(codes.size + 1).padStart(3, "0")}`);
        continue;
      }
      const given = pseudonym(patient);
      const code = distinct(given, taken);
      if (code !== given) problems.push(codeTwice(given));
      taken.add(code);
      codes.set(patient, code);
    }
  }
  return { codes, problems };
}

/** The column of patients of a file, as written; nothing where it has none. */
export function patientsWritten({ matched: { table, plans } }: ReadableCases): readonly string[] {
  const plan = plans.find(({ spec, isField }) => isField && spec?.name === "patient");
  return plan === undefined ? [] : table.columns[plan.position]!;
}

/** The patients in a column, as codes. */
export function pseudonyms(
  written: readonly string[],
  codes: ReadonlyMap<string, string>,
): readonly (string | null)[] {
  return written.map((patient) => codes.get(patient) ?? null);
}

function distinct(code: string, taken: ReadonlySet<string>): string {
  let free = code;
  for (let n = 2; taken.has(free); n++) free = `${code} (${n})`;
  return free;
}

function codeTwice(code: string): Problem {
  return {
    code: "pseudonym-twice",
    severity: "query",
    place: { field: "patient" },
    message: "two patients have the same code; one of them has a number added to it.",
    found: code,
    expected: "a code for each patient",
    remedy: "take another key for the codes",
  };
}
