import type { Cells } from "./cells.ts";

/** A row as the department recorded it, before any deliberate fault. */
export interface RecordedRow {
  readonly cells: Cells;
  /** No later operation on this eye is in the file. */
  readonly lastOfEye: boolean;
}
