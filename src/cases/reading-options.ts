import type { LowVisionTable } from "./acuity.ts";
import type { Correction } from "./corrections/correction.ts";
import type { Matching } from "./matching.ts";

/** How a file of cases is to be read. */
export interface ReadCasesOptions {
  readonly matching?: Matching;
  /** Whole days since 1970-01-01: a date after it is set aside. Absent: not checked. */
  readonly today?: number;
  /** The code that stands for a patient; P001, P002 … in order of appearance where absent. */
  readonly pseudonym?: (patient: string) => string;
  /** What counting fingers, hand movements and light perception are in logMAR. */
  readonly lowVision?: LowVisionTable;
  /** Laid over the file before anything is read from it. */
  readonly corrections?: readonly Correction[];
}
