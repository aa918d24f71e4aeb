import type { CheckedColumn } from "./read-columns.ts";
import type { RowPlaces } from "./row-places.ts";

/** Rows that are read and not yet checked: of one file, or of several put together. */
export interface UncheckedCases {
  readonly columns: readonly CheckedColumn[];
  readonly rows: RowPlaces;
}
