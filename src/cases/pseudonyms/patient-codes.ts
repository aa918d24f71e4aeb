import type { Problem } from "../../problem/problem.ts";
import { isMissing } from "../missing-value.ts";
import type { ReadableCases } from "../open-cases.ts";
import { WrittenColumn } from "../written-column.ts";
import { patientIdentity, withoutLeadingZeros } from "./patient-identity.ts";

/** Patients of all files read together, each with its code. */
export interface PatientCodes {
  /** By identifier as written, and by identity. */
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
  written: readonly WrittenColumn[],
  pseudonym?: (patient: string) => string,
): PatientCodes {
  const giver = new CodeGiver(pseudonym);
  for (const { different } of written) {
    for (const patient of different) giver.meet(patient);
  }
  const { codes, problems, otherWritings } = giver;
  const variously = otherWritings === 0 ? [] : [writtenVariously(otherWritings)];
  return { codes, problems: [...problems, ...variously, ...differingInZeros(codes)] };
}

/** The column of patients of a file, as written; nothing where it has none. */
export function patientsWritten({ matched: { table, plans } }: ReadableCases): WrittenColumn {
  const plan = plans.find(({ spec, isField }) => isField && spec?.name === "patient");
  return plan === undefined ? WrittenColumn.of([]) : table.columns[plan.position]!;
}

/** By row, the patients in a column as codes; nothing where there is no such column. */
export function pseudonyms(
  written: WrittenColumn | undefined,
  codes: ReadonlyMap<string, string>,
): (string | null)[] {
  if (written === undefined) return [];
  return written.map((patient) => codes.get(patient) ?? null);
}

/** Gives each identity one code, and the same to every way of writing it. */
class CodeGiver {
  /** By identifier as written, and by identity. */
  readonly codes = new Map<string, string>();
  readonly problems: Problem[] = [];
  /** Identifiers written otherwise than the first of their patient. */
  otherWritings = 0;
  /** Identities that no identifier is written as, so far. */
  readonly #unwritten = new Set<string>();
  readonly #taken = new Set<string>();
  readonly #pseudonym: ((patient: string) => string) | undefined;
  #patients = 0;

  constructor(pseudonym: ((patient: string) => string) | undefined) {
    this.#pseudonym = pseudonym;
  }

  meet(written: string): void {
    if (this.codes.has(written)) {
      if (this.#unwritten.size > 0 && this.#unwritten.delete(written)) this.otherWritings++;
    } else if (!isMissing(written)) this.#take(written, patientIdentity(written));
  }

  #take(written: string, identity: string): void {
    const known = this.codes.get(identity);
    const code = known ?? this.#codeFor(identity);
    if (known !== undefined) this.otherWritings++;
    else if (written !== identity) this.#unwritten.add(identity);
    this.codes.set(identity, code);
    this.codes.set(written, code);
  }

  #codeFor(identity: string): string {
    this.#patients++;
    if (this.#pseudonym === undefined) return `P${String(this.#patients).padStart(3, "0")}`;
    const given = this.#pseudonym(identity);
    let code = given;
    for (let n = 2; this.#taken.has(code); n++) code = `${given} (${n})`;
    if (code !== given) this.problems.push(codeTwice(given));
    this.#taken.add(code);
    return code;
  }
}

/** Patients whose identities are the same without leading zeros, by their codes. */
function differingInZeros(codes: ReadonlyMap<string, string>): Problem[] {
  const alike = new Map<string, Set<string>>();
  for (const [written, code] of codes) {
    const identity = patientIdentity(written);
    const plain = withoutLeadingZeros(identity);
    if (plain === identity) continue;
    const unzeroed = codes.get(plain);
    const same = alike.get(plain) ?? new Set(unzeroed === undefined ? [] : [unzeroed]);
    alike.set(plain, same.add(code));
  }
  return [...alike.values()].filter((same) => same.size > 1).map(patientsAlike);
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

function patientsAlike(codes: ReadonlySet<string>): Problem {
  return {
    code: "patients-alike",
    severity: "query",
    place: { field: "patient" },
    message: "the identifiers of these patients differ only in leading zeros: they may be one.",
    found: [...codes].sort().join(", "),
    expected: "an identifier that is the same in every row of a patient",
    remedy: "put the zeros back in the file, or leave it if they are different patients",
  };
}
