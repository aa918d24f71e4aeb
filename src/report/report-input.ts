import type { FileFacts } from "../cases/case-reading.ts";
import type { Problem } from "../problem/problem.ts";
import type { CellState } from "../recalculation/cell-state.ts";
import type { MinutedCheck } from "../recalculation/check-minuted.ts";
import type { ActionDue } from "./actions-due.ts";
import type { DefinitionUsed } from "./definitions-used.ts";
import type { FieldUsed } from "./fields-used.ts";
import type { RowsOnLines } from "./sharing/rows-on-lines.ts";

/** What a report is made from. No clock: a date stands in it only where one is given. */
export interface ReportInput {
  readonly title: string;
  readonly period?: string;
  /** The department. */
  readonly department?: string;
  /** Who made it: a role rather than a name. */
  readonly madeBy?: string;
  /** For whom it is made. */
  readonly reader?: string;
  readonly version: string;
  /** Where it rests on the aggregates of departments and on no cases: their files. */
  readonly aggregates?: readonly PooledFile[];
  /** Where the report may leave the department: the smallest count that is shown. */
  readonly sharing?: { readonly threshold: number };
  /** "2026-03-31" */
  readonly dated?: string;
  readonly cases: ReportedCases;
  readonly definitions: readonly DefinitionUsed[];
  readonly actions: readonly ActionDue[];
  readonly blocks: readonly ReportBlock[];
  /** In the order of the sheet. */
  readonly cells: readonly ReportedCell[];
}

/** A file, told from any other by its SHA-256 in hexadecimal. */
export interface NamedDigest {
  readonly name: string;
  readonly sha256: string;
}

/** A file that lies over the cases: further cases, or a list of corrections. */
export interface LaidFile extends NamedDigest {
  /** Of further cases: data rows in it. */
  readonly rowsRead?: number;
}

/** What a department handed over. */
export interface PooledFile extends NamedDigest {
  /** The department's name or code, as it gives it. */
  readonly unit: string;
  /** Absent where it withholds how many they are. */
  readonly eyes?: number;
}

export interface ReportedCases {
  readonly file: FileFacts;
  readonly sha256: string;
  /** Files that lie over it, in their order: further cases, and corrections. */
  readonly laid: readonly LaidFile[];
  /** Where values were corrected. */
  readonly corrections?: { readonly applied: number; readonly notFitting: number };
  readonly rowsRead: number;
  readonly rowsKept: number;
  readonly rowsLeftOut: number;
  readonly queries: number;
  /** What its columns mean; none in a report to share, since headings may tell of the department. */
  readonly fields: readonly FieldUsed[];
  /** Everything that was wrong with the file, in the order of its lines. */
  readonly problems: readonly Problem[];
  /** The codes of surgeons and supervisors, each once. */
  readonly people: readonly string[];
  /** The ids of cases and patients, each once; none where left out. */
  readonly ids?: readonly string[];
  /** Names of the columns of free text, those of people's codes left out. */
  readonly textColumns: readonly string[];
  /** Where several files were put together: what tells apart the rows that stand on the same line. */
  readonly rowsOnLines?: RowsOnLines;
  /** The patient of each row, by its key (`rowKey`); absent where the file names no patients. */
  readonly patientOf?: ReadonlyMap<number, string>;
}

export interface ReportedCell {
  readonly name: string;
  readonly working: string;
  /** For a setting: what is chosen, as it reads on the sheet. */
  readonly setting?: string;
  readonly state: CellState;
  readonly minuted: readonly ReportedMinute[];
  /** In a shared report: what of the answer is kept back, in words. */
  readonly withheld?: readonly string[];
}

/** What a meeting was told of a cell, and how it stands now. */
export interface ReportedMinute {
  /** "2026-03-14" */
  readonly day: string;
  readonly told: string;
  readonly check: MinutedCheck;
  /** Where it moved: what is different from then, in words; empty where that is not known. */
  readonly because: readonly string[];
}

export type ReportBlock =
  | { readonly type: "heading"; readonly level: number; readonly text: string }
  | { readonly type: "prose"; readonly text: string }
  /** As written, in a fence or indented. */
  | { readonly type: "code"; readonly text: string }
  | { readonly type: "row"; readonly cells: readonly string[] };
