import type { CaseReading } from "../cases/case-reading.ts";
import type { Matching } from "../cases/matching.ts";
import type { CaseFile } from "../cases/open-file.ts";
import { isSame } from "./is-same.ts";
import type { LaidOver } from "./laid-over.ts";

/** What cases are read from: a file, and what is laid over it. */
export interface ReadFrom {
  readonly file: CaseFile | undefined;
  readonly laid: LaidOver;
}

type Read = (file: CaseFile, matching: Matching, laid: LaidOver) => CaseReading;

interface Reading {
  readonly matching: Matching;
  readonly laid: LaidOver;
  readonly reading: CaseReading;
}

/** Reads cases, and again only where matching or what is laid over the file is another. */
export class CaseReadings {
  readonly #read: Read;
  /** By file: how it was read last, and what that gave. */
  readonly #last = new WeakMap<CaseFile, Reading>();

  constructor(read: Read) {
    this.#read = read;
  }

  read({ file, laid }: ReadFrom & { readonly file: CaseFile }, matching: Matching): CaseReading {
    const before = this.#last.get(file);
    if (before?.laid === laid && isSame(before.matching, matching)) return before.reading;
    const reading = this.#read(file, matching, laid);
    this.#last.set(file, { matching, laid, reading });
    return reading;
  }

  forget(file: CaseFile): void {
    this.#last.delete(file);
  }
}

/** Why cases are read anew, in words that follow "because". */
export function whyRead(before: Partial<ReadFrom> | undefined, now: Partial<ReadFrom>): string {
  const differs = (part: keyof LaidOver) => before?.laid?.[part] !== now.laid?.[part];
  if (before?.file !== now.file) return "cases were opened";
  if (differs("further")) return "a further file was put to the cases";
  if (differs("corrections")) return "cases were corrected";
  if (differs("codeOf")) return "patients have other codes";
  return "the columns were matched anew";
}
