import type { Problem } from "../../problem/problem.ts";
import { isMissing } from "../missing-value.ts";
import type { ReadableCases } from "../open-cases.ts";
import { patientIdentity, withoutLeadingZeros } from "./patient-identity.ts";

/** Patients of all files read together, each with its code. */
export interface PatientCodes {
  /** By identifier as written. */
  readonly codes: ReadonlyMap<string, string>;
  readonly problems: readonly Problem[];
}

/**
 * Codes in place of patients' identifiers: by the function given, which is asked with the identity
 * of each, else P001, P002 … in the order in which patients first appear, so that files that come
 * later change none. The same identifier, also with other spaces or in other case, gives the same
 * code; missing stays missing. Should two identifiers be given one code, they are told apart by a
 * number, and that is said; so it is where two differ only in leading zeros.
 */
export function patientCodes(
  written: readonly (readonly string[])[],
  pseudonym?: (patient: string) => string,
): PatientCodes {
  const codes = new Map<string, string>();
  const giver = new CodeGiver(pseudonym);
  for (const values of written) {
    for (const patient of values) {
      if (codes.has(patient) || isMissing(patient)) continue;
      codes.set(patient, giver.codeOf(patientIdentity(patient)));
    }
  }
  const writings = codes.size - giver.codes.size;
  const variously = writings === 0 ? [] : [writtenVariously(writings)];
  return { codes, problems: [...giver.problems, ...variously, ...differingInZeros(giver.codes)] };
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

/** Gives each identity one code. */
class CodeGiver {
  readonly codes = new Map<string, string>();
  readonly problems: Problem[] = [];
  readonly #taken = new Set<string>();
  readonly #pseudonym: ((patient: string) => string) | undefined;

  constructor(pseudonym: ((patient: string) => string) | undefined) {
    this.#pseudonym = pseudonym;
  }

  codeOf(identity: string): string {
    const known = this.codes.get(identity);
    if (known !== undefined) return known;
    const code = this.#pseudonym === undefined ? this.#next() : this.#distinct(identity);
    this.codes.set(identity, code);
    return code;
  }

  #next(): string {
    return `P${String(this.codes.size + 1).padStart(3, "0")}`;
  }

  #distinct(identity: string): string {
    const given = this.#pseudonym!(identity);
    let code = given;
    for (let n = 2; this.#taken.has(code); n++) code = `${given} (${n})`;
    if (code !== given) this.problems.push(codeTwice(given));
    this.#taken.add(code);
    return code;
  }
}

function differingInZeros(codes: ReadonlyMap<string, string>): Problem[] {
  const alike = new Map<string, string[]>();
  for (const [identity, code] of codes) {
    const plain = withoutLeadingZeros(identity);
    const same = alike.get(plain);
    if (same === undefined) alike.set(plain, [code]);
    else same.push(code);
  }
  return [...alike.values()].filter((same) => same.length > 1).map(patientsAlike);
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

function writtenVariously(writings: number): Problem {
  const are = writings === 1 ? "1 identifier differs" : `${writings} identifiers differ`;
  return {
    code: "patient-written-variously",
    severity: "note",
    place: { field: "patient" },
    message: `${are} from another only in spaces or in upper and lower case, and was taken for the same patient.`,
  };
}

function patientsAlike(codes: readonly string[]): Problem {
  return {
    code: "patients-alike",
    severity: "query",
    place: { field: "patient" },
    message: "the identifiers of these patients differ only in leading zeros: they may be one.",
    found: codes.join(", "),
    expected: "an identifier that is the same in every row of a patient",
    remedy: "put the zeros back in the file, or leave it if they are different patients",
  };
}
