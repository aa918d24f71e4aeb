import type { CaseReading } from "../cases/case-reading.ts";
import type { Matching } from "../cases/matching.ts";
import type { CaseFile } from "../cases/open-file.ts";
import type { Vocabulary } from "../formula/vocabulary.ts";
import type { Turn } from "./graph.ts";
import type { LaidOver } from "./laid-over.ts";

/** What the rooms beside and above hand in. */
export interface SessionParts<Change> {
  readonly vocabulary: Vocabulary;
  /** Names of what the sheet is fed from outside; `cases` alone where left out. */
  readonly inputs?: ReadonlySet<string>;
  /** Of the software, as it is released. */
  readonly version: string;
  /**
   * Reads a file as the notebook matches it, with what is laid over it. Never throws; no columns
   * where it cannot be read.
   */
  readCases(file: CaseFile, matching: Matching, laid: LaidOver): CaseReading;
  /** The working of a setting with a change made to it; the same text where it does not fit. */
  withSetting(working: string, change: Change): string;
  /** Before a cell is worked out: what it has to wait for, or nothing. */
  readonly turn?: Turn;
}
