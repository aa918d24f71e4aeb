import type { RowPlace } from "../row-places.ts";
import type { CellValue } from "../table.ts";

/**
 * `operations`: a later export, with rows that are new, or known and perhaps more complete;
 * `follow-up`: what became of eyes whose operations are known.
 */
export type FurtherFileKind = "operations" | "follow-up";

/**
 * What a file brought to those before it. Each of its rows is in exactly one of `added`,
 * `changed` (by its changes), `same` and the rows left out.
 */
export interface JoinReport {
  /** Lines of rows that are cases of their own. */
  readonly added: readonly number[];
  /** Values that are otherwise now, also those that were missing. */
  readonly changed: readonly CaseChange[];
  /** Lines of rows that changed nothing. */
  readonly same: readonly number[];
  /** Rows of the earlier files that this one does not have. They are kept. */
  readonly missing: readonly RowPlace[];
}

export interface CaseChange {
  /** The row that was changed, where it first stood. */
  readonly place: RowPlace;
  /** The line of the later file that changed it. */
  readonly line: number;
  readonly field: string;
  readonly from: CellValue;
  readonly to: CellValue;
}
