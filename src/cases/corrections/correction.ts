/**
 * One value of a file put right, without touching the file: what stood there, what is to be read
 * in its place, why, and when that was decided.
 */
export interface Correction {
  readonly row: CorrectedRow;
  /** Name of the column in the cases. */
  readonly field: string;
  /**
   * The text in the file, or what an earlier correction made of it; empty where nothing stands
   * there. Of `patient`, the code.
   */
  readonly from: string;
  /** Read as if it stood in the file; empty: not known. Of `patient`, the code of that patient. */
  readonly to: string;
  readonly why: string;
  /** The day of the decision, in whole days since 1970-01-01. */
  readonly correctedDay: number;
}

/**
 * Which row: by its id where the file has one, else by patient (the code), eye and day of the
 * operation, which also find it in next quarter's file, else by its line in one file.
 */
export type CorrectedRow =
  | { readonly by: "case"; readonly case: string }
  | {
      readonly by: "operation";
      readonly patient: string;
      readonly eye: string;
      readonly operationDay: number;
    }
  | { readonly by: "line"; readonly file: string; readonly line: number };

/** What became of the corrections that a reading was given. Together they are all of them. */
export interface CorrectionsLaid {
  readonly applied: readonly Correction[];
  /** Not applied: the row is gone, or the file has another value there. Each is a query too. */
  readonly notFitting: readonly Correction[];
}
