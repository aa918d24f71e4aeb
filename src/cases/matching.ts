import type { ColumnKind } from "./table.ts";

/**
 * How one department's headings and values stand for the fields of the dictionary. Kept in the
 * notebook's front matter, so that next quarter's file needs nothing.
 */
export interface Matching {
  /** By heading as in the file. */
  readonly columns: ReadonlyMap<string, ColumnMatch>;
  /** By field, then by value as written in the file: the code it stands for. */
  readonly values: ReadonlyMap<string, ReadonlyMap<string, string>>;
}

export type ColumnMatch =
  | {
      readonly field: string;
      readonly dayOrder?: "day first" | "month first";
      /** How bare numbers in a column of acuity are to be read. */
      readonly acuityNotation?: AcuityNotation;
      /** Names of surgeons and supervisors are shown; absent: codes stand for them. */
      readonly names?: "shown";
    }
  /** A column of the department's own, outside the dictionary. */
  | { readonly name: string; readonly kind: ColumnKind; readonly unit?: string }
  /** Not read. */
  | { readonly leave: true };

export type AcuityNotation = "logMAR" | "decimal" | "letters";
