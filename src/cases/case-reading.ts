import type { Problem } from "../problem/problem.ts";
import type { Matching } from "./matching.ts";
import type { Table } from "./table.ts";

/** Everything that reading one file of cases yields. No row is lost between `rowsRead` and here. */
export interface CaseReading {
  readonly file: FileFacts;
  /** Data rows in the file: below the header, not blank. `rowsRead = cases + leftOut`. */
  readonly rowsRead: number;
  /** One row an operation (or an eye, or whatever the file holds one a row of). */
  readonly cases: Table;
  /** For each row of `cases`, its first line in the original file, counted from 1. */
  readonly lines: readonly number[];
  readonly leftOut: readonly LeftOutRow[];
  /** How headings and values were matched, ready to be kept in the notebook. */
  readonly matching: Matching;
  readonly columns: readonly MatchedColumn[];
  readonly problems: readonly Problem[];
}

export interface FileFacts {
  readonly name: string;
  readonly bytes: number;
  /** "UTF-8", "UTF-8 with mark", "UTF-16LE", "UTF-16BE", "Windows-1252". */
  readonly encoding: string;
  readonly delimiter: "," | ";" | "\t" | "|";
}

export interface LeftOutRow {
  readonly line: number;
  /** The `code` of the problem that stopped the row; the problem itself is in `problems`. */
  readonly code: string;
  /** The reason in words, the same for every row with this code. */
  readonly reason: string;
}

/** What became of one heading of the file. */
export interface MatchedColumn {
  /** As in the file. */
  readonly heading: string;
  /** Position in the file, from 0. */
  readonly position: number;
  /** The name in `cases`, or undefined where the column was dropped. */
  readonly name?: string;
  /** The field of the dictionary, where it is one. */
  readonly field?: string;
  /** How sure: by the notebook, by exact name, by a known spelling, by nearness, or not matched. */
  readonly by: "notebook" | "name" | "spelling" | "guess" | "unmatched" | "dropped";
  /** Up to five different values, as written; none for a column that was dropped as private. */
  readonly sample: readonly string[];
  /** Values that are missing after reading, of `rowsRead`. */
  readonly missing: number;
}
