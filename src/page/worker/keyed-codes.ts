import { pseudonymsWithKey } from "../../cases/pseudonyms/pseudonyms-with-key.ts";

/**
 * Codes of patients by a secret of the reader's own. The platform works a code out in its own
 * time, and cases are read at once: a patient who was not met yet has a stand-in until `learn`.
 */
export class KeyedCodes {
  readonly secret: Uint8Array;
  readonly #codes = new Map<string, string>();
  readonly #unmet = new Map<string, string>();

  constructor(secret: Uint8Array) {
    this.secret = secret;
    keyOfCodes.set(this.codeOf, this);
  }

  readonly codeOf = (patient: string): string => {
    const known = this.#codes.get(patient) ?? this.#unmet.get(patient);
    if (known !== undefined) return known;
    const standIn = `not yet coded ${this.#unmet.size + 1}`;
    this.#unmet.set(patient, standIn);
    return standIn;
  };

  /** Works out the codes of those who were met since; false where there are none. */
  async learn(): Promise<boolean> {
    if (this.#unmet.size === 0) return false;
    const patients = [...this.#unmet.keys()];
    const codeOf = await pseudonymsWithKey(this.secret, patients);
    for (const patient of patients) this.#codes.set(patient, codeOf(patient));
    this.#unmet.clear();
    return true;
  }
}

const keyOfCodes = new WeakMap<(patient: string) => string, KeyedCodes>();

/** The key that codes are made with; undefined where patients are numbered. */
export function keyBehind(codeOf: ((patient: string) => string) | undefined) {
  return codeOf && keyOfCodes.get(codeOf);
}
