import type { Problem } from "../problem/problem.ts";
import type { CorrectionsLaid } from "./corrections/correction.ts";
import type { FurtherFileKind, JoinReport } from "./joining/join-report.ts";
import type { Matching } from "./matching.ts";
import type { Table } from "./table.ts";

/** Everything that reading one file of cases yields. No row is lost between `rowsRead` and here. */
export interface CaseReading {
  readonly file: FileFacts;
  /**
   * Data rows in the file: below the header, not blank. `rowsRead = cases + leftOut`. Of several
   * files, rows that tell of one operation count once.
   */
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
  /** Where corrections were given: which were laid over the file, and which no longer fit. */
  readonly corrections?: CorrectionsLaid;
  /** Where several files were put together: those that could be read, the first one first. */
  readonly files?: readonly FileFacts[];
  /** Where several files were put together: for each row of `cases`, the position of its file. */
  readonly fileOf?: readonly number[];
  /** What each further file brought. */
  readonly joins?: readonly FileJoin[];
}

/** What one further file brought to those before it. */
export interface FileJoin extends JoinReport {
  readonly file: FileFacts;
  readonly as: FurtherFileKind;
  /** Data rows in that file. */
  readonly rowsRead: number;
  /** How its own headings were matched. */
  readonly matching: Matching;
  readonly columns: readonly MatchedColumn[];
}

export interface FileFacts {
  readonly name: string;
  readonly bytes: number;
  /** "UTF-8", "UTF-8 with mark", "UTF-16LE", "UTF-16BE", "Windows-1252"; "workbook" of a sheet. */
  readonly encoding: string;
  readonly delimiter: "," | ";" | "\t" | "|";
  /** Of a workbook: the sheet that was read; absent where none could be. Lines are its rows. */
  readonly sheet?: string;
  /** Of a workbook: the names of all sheets. */
  readonly sheets?: readonly string[];
}

export interface LeftOutRow {
  /** Name of the file, where several were put together. */
  readonly file?: string;
  readonly line: number;
  /** The `code` of the problem that stopped the row; the problem itself is in `problems`. */
  readonly code: string;
  /** The reason in words, the same for every row with this code. */
  readonly reason: string;
  /** Whose eye the row was of, as far as it was read: its other rows cannot be believed alone. */
  readonly patient?: string;
  readonly eye?: string;
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
