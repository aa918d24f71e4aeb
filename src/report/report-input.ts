import type { FileFacts } from "../cases/case-reading.ts";
import type { CellState } from "../recalculation/cell-state.ts";

/** What a report is made from. No clock: a date stands in it only where one is given. */
export interface ReportInput {
  readonly title: string;
  readonly period?: string;
  /** The department. */
  readonly department?: string;
  readonly version: string;
  /** "2026-03-31" */
  readonly dated?: string;
  readonly cases: ReportedCases;
  readonly blocks: readonly ReportBlock[];
  /** In the order of the sheet. */
  readonly cells: readonly ReportedCell[];
}

export interface ReportedCases {
  readonly file: FileFacts;
  readonly sha256: string;
  readonly rowsRead: number;
  readonly rowsKept: number;
  readonly rowsLeftOut: number;
  readonly queries: number;
}

export interface ReportedCell {
  readonly name: string;
  readonly working: string;
  /** For a setting: what is chosen, as it reads on the sheet. */
  readonly setting?: string;
  readonly state: CellState;
}

export type ReportBlock =
  | { readonly type: "heading"; readonly level: number; readonly text: string }
  | { readonly type: "prose"; readonly text: string }
  | { readonly type: "row"; readonly cells: readonly string[] };
