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
 * in which patients first appear. The same identifier gives the same code; missing stays missing.
 * Should two identifiers be given one code, they are told apart by a number, and that is said.
 */
export function patientCodes(
  written: readonly (readonly string[])[],
  pseudonym?: (patient: string) => string,
): PatientCodes {
  const patients = new Set<string>();
  for (const values of written) {
    for (const value of values) if (!isMissing(value)) patients.add(value);
  }
  return pseudonym === undefined
    ? { codes: numbered(patients), problems: [] }
    : codesBy(pseudonym, patients);
}

function numbered(patients: ReadonlySet<string>): ReadonlyMap<string, string> {
  const width = Math.max(3, String(patients.size).length);
  const codes = new Map<string, string>();
  for (const patient of patients) {
    codes.set(patient, `P${String(codes.size + 1).padStart(width, "0")}`);
  }
  return codes;
}

function codesBy(
  pseudonym: (patient: string) => string,
  patients: ReadonlySet<string>,
): PatientCodes {
  const codes = new Map<string, string>();
  const taken = new Set<string>();
  const problems: Problem[] = [];
  for (const patient of patients) {
    const given = pseudonym(patient);
    const code = distinct(given, taken);
    if (code !== given) problems.push(codeTwice(given));
    taken.add(code);
    codes.set(patient, code);
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
