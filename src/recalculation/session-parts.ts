import type { CaseReading } from "../cases/case-reading.ts";
import type { Matching } from "../cases/matching.ts";
import type { CaseFile } from "../cases/open-file.ts";
import type { Vocabulary } from "../formula/vocabulary.ts";
import type { LaidOver } from "./laid-over.ts";

/** What the rooms beside and above hand in. */
export interface SessionParts<Change> {
  readonly vocabulary: Vocabulary;
  /** Of the software, as it is released. */
  readonly version: string;
  /**
   * Reads a file as the notebook matches it, with what is laid over it. Never throws; no columns
   * where it cannot be read.
   */
  readCases(file: CaseFile, matching: Matching, laid: LaidOver): CaseReading;
  /** The working of a setting with a change made to it; the same text where it does not fit. */
  withSetting(working: string, change: Change): string;
}
