import type { MatchedColumn } from "../cases/case-reading.ts";
import type { FurtherFileKind } from "../cases/joining/join-report.ts";
import type { ColumnMatch } from "../cases/matching.ts";
import type { FromWorkbook } from "../cases/open-file.ts";
import type { RowPlace } from "../cases/row-places.ts";
import type { ColumnKind } from "../cases/table.ts";
import type { SheetFound } from "../cases/workbook/sheets-in.ts";
import type { Problem } from "../problem/problem.ts";
import type { Done } from "./done.ts";

/** What the leaf of cases asks of the worker beyond opening a file. */
export type CasesRequest =
  /** Keeps how headings and values stand for the dictionary in the notebook. */
  | { readonly ask: "match columns"; readonly change: MatchingChange }
  /** Keeps a column worked out in every row in the notebook; without a working it is taken out. */
  | { readonly ask: "compute column"; readonly column: string; readonly working?: string }
  | { readonly ask: "correct"; readonly values: readonly ValueCorrected[]; readonly why: string }
  /** By their positions in the list of corrections. */
  | { readonly ask: "take back corrections"; readonly positions: readonly number[] }
  /** Lays a saved list over the cases, beside the corrections there are. */
  | { readonly ask: "open corrections"; readonly name: string; readonly text: string }
  | { readonly ask: "save corrections" }
  /** Lays what lay over the cases that were open before over these. */
  | { readonly ask: "lay earlier corrections" }
  | {
      readonly ask: "add cases";
      readonly name: string;
      readonly bytes: Uint8Array;
      readonly as: FurtherFileKind;
      /** Of a workbook; without it the sheet that most looks like a table of cases. */
      readonly sheet?: string;
    }
  | { readonly ask: "sheets in"; readonly bytes: Uint8Array }
  /** Codes of patients by a key of the reader's own; without one they are numbered. */
  | { readonly ask: "use key"; readonly secret?: Uint8Array }
  | {
      readonly ask: "arranged rows";
      readonly arrangement: Arrangement;
      readonly from: number;
      readonly count: number;
    }
  | { readonly ask: "range text"; readonly range: TextRange }
  | { readonly ask: "find in cases"; readonly wanted: TextWanted }
  | { readonly ask: "place of row"; readonly arrangement: Arrangement; readonly at: RowAt }
  | { readonly ask: "written values"; readonly cells: readonly ValueAt[] }
  | { readonly ask: "cases to keep" }
  | ({ readonly ask: "open kept cases"; readonly kept: HeldCases } & AtStart);

/** Of what is opened: the page does so by itself as it begins, and undo does not go behind it. */
export interface AtStart {
  readonly atStart?: true;
}

export interface CasesReplies {
  readonly "match columns": Done;
  readonly "compute column": Done;
  readonly correct: Done;
  readonly "take back corrections": Done;
  readonly "open corrections": Done;
  readonly "lay earlier corrections": Done;
  readonly "save corrections": { readonly name: string; readonly text: string };
  readonly "add cases": Done;
  readonly "use key": Done;
  /** Sheets of a workbook that hold something; none where the file is no workbook. */
  readonly "sheets in": { readonly sheets: readonly SheetFound[] };
  readonly "arranged rows": ArrangedRows;
  /** Lines of texts parted by tabs. */
  readonly "range text": { readonly text: string };
  /** The next place that holds the text, or null where none does; a later search overtakes. */
  readonly "find in cases":
    | { readonly row: number; readonly line: number; readonly column: string }
    | { readonly overtaken: true }
    | null;
  /** The position of a row in an arrangement, or null where it is not in it. */
  readonly "place of row": { readonly row: number } | null;
  /** The texts as they stand in the file with the corrections so far; null: no such row. */
  readonly "written values": { readonly texts: readonly (string | null)[] };
  readonly "cases to keep": HeldCases | null;
  readonly "open kept cases": Done;
}

export interface MatchingChange {
  /** Everything as it was matched, guesses among it, is confirmed. */
  readonly all?: true;
  readonly columns?: readonly (readonly [heading: string, match: ColumnMatch])[];
  readonly values?: readonly (readonly [field: string, written: string, code: string])[];
}

/** A row of a file; without a name, of the first. */
export interface RowAt {
  readonly file?: string;
  readonly line: number;
}

export interface ValueAt extends RowAt {
  /** Name of the column in the cases. */
  readonly field: string;
}

export interface ValueCorrected extends ValueAt {
  readonly to: string;
}

/** Which rows are shown, and in which order. */
export interface Arrangement {
  readonly sort?: { readonly column: string; readonly descending: boolean };
  /** A condition over the columns, in the language of workings. */
  readonly where?: string;
  /** Lines of files, behind a number of the sheet. */
  readonly lines?: readonly number[];
}

export interface CaseRow {
  readonly line: number;
  readonly texts: readonly string[];
  /** The file that it first stood in. */
  readonly file?: string;
  /** Positions in `texts` that a query is about. */
  readonly queried?: readonly number[];
  /** Positions in `texts` that a correction stands in. */
  readonly corrected?: readonly number[];
}

export interface ArrangedRows {
  readonly rows: readonly CaseRow[];
  /** Rows in the whole arrangement. */
  readonly count: number;
  /** Rows of which it is not known whether they fit the condition: they are not shown. */
  readonly undecided: number;
  /** What is wrong with the condition; then it is as if it were not there. */
  readonly problems: readonly Problem[];
}

export interface TextWanted {
  readonly text: string;
  readonly arrangement: Arrangement;
  /** Columns that are shown, in their order. */
  readonly columns: readonly string[];
  /** Where to begin: the place behind this one. */
  readonly behind: { readonly row: number; readonly column: number };
}

/** A rectangle of values, to be copied. */
export interface TextRange {
  readonly arrangement: Arrangement;
  /** Positions in the arrangement, from 0; both in the range. */
  readonly rows: readonly [from: number, to: number];
  /** Names of columns, in the order in which they are shown. */
  readonly columns: readonly string[];
}

/** Cases with everything that lies over them, as it is kept on this device. */
export interface HeldCases {
  readonly files: readonly HeldFile[];
  /** As `writeCorrections` writes them. */
  readonly corrections: string;
  readonly secret?: Uint8Array;
}

export interface HeldFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly workbook?: FromWorkbook;
  /** Absent of the first. */
  readonly as?: FurtherFileKind;
}

/** What the leaf of cases shows beyond the facts of the file. */
export interface CasesLeafView {
  readonly columns: readonly CaseColumn[];
  readonly corrections: readonly CorrectionView[];
  /** Corrections that are not in the list as it was saved or opened last. */
  readonly unsavedCorrections: number;
  /** Corrections that were left behind when these cases were opened. */
  readonly earlier?: EarlierView;
  readonly joins: readonly JoinView[];
  /** Headings of further files that the first one does not have. */
  readonly furtherColumns: readonly MatchedColumn[];
  readonly unmetValues: readonly UnmetValue[];
  /** Columns worked out in every row, as the notebook keeps them. */
  readonly computed: readonly ComputedView[];
  /** Codes of patients come from a key of the reader's own. */
  readonly hasKey: boolean;
}

export interface EarlierView {
  /** The file that they lay over. */
  readonly file: string;
  readonly count: number;
}

export interface ComputedView {
  readonly name: string;
  readonly working: string;
  /** False: it could not be worked out; why is among the problems. */
  readonly isThere: boolean;
}

export interface CaseColumn {
  readonly name: string;
  readonly label: string;
  readonly kind: ColumnKind;
  readonly unit?: string;
}

export interface CorrectionView {
  readonly row: string;
  readonly field: string;
  readonly from: string;
  readonly to: string;
  readonly why: string;
  readonly date: string;
  /** False: the row is gone, or the file has another value there. */
  readonly fits: boolean;
  /** Where it was laid, if the row is among the cases. */
  readonly at?: RowAt;
}

export interface JoinView {
  readonly file: string;
  readonly as: FurtherFileKind;
  readonly rowsRead: number;
  readonly added: number;
  readonly same: number;
  readonly changed: { readonly count: number; readonly first: readonly ChangeView[] };
  readonly missing: { readonly count: number; readonly first: readonly RowPlace[] };
  readonly leftOut: number;
}

export interface ChangeView extends ValueAt {
  readonly from: string;
  readonly to: string;
}

/** A value of a column of codes that nobody has met before. */
export interface UnmetValue {
  readonly field: string;
  readonly written: string;
  readonly rows: number;
  readonly codes: readonly string[];
}
