import type { FileFacts, MatchedColumn } from "../cases/case-reading.ts";
import type { Completion } from "../formula/complete.ts";
import type { Parameter } from "../formula/vocabulary.ts";
import type { TitlePage } from "../notebook/set-front-matter.ts";
import type { CellWidth } from "../notebook/set-widths.ts";
import type { Problem } from "../problem/problem.ts";
import type { Answer, AnswerTable, PickedRows } from "../questions/answer.ts";
import type { Setting } from "../questions/setting.ts";
import type { SettingChange } from "../questions/settings/with-setting.ts";
import type {
  AtStart,
  CaseRow,
  CasesLeafView,
  CasesReplies,
  CasesRequest,
} from "./cases-protocol.ts";
import type {
  DepartmentsReplies,
  DepartmentsRequest,
  DepartmentsView,
} from "./departments-protocol.ts";
import type { Done } from "./done.ts";
import type { LeavingReplies, LeavingRequest } from "./leaving-protocol.ts";

/**
 * What the page and the worker that hosts the notebook say to each other. Requests carry an id
 * and get one reply; news is sent whenever something on the sheet changed.
 */
export type Request =
  | CasesRequest
  | DepartmentsRequest
  | LeavingRequest
  | ({ readonly ask: "open notebook"; readonly name: string; readonly text: string } & AtStart)
  | ({
      readonly ask: "open cases";
      readonly name: string;
      readonly bytes: Uint8Array;
      /** The demo: these cases are of no real patient. */
      readonly invented?: boolean;
      /** Of a workbook; without it the sheet that most looks like a table of cases. */
      readonly sheet?: string;
    } & AtStart)
  | { readonly ask: "set working"; readonly cell: string; readonly working: string }
  | { readonly ask: "set setting"; readonly cell: string; readonly to: SettingChange }
  | {
      readonly ask: "add cell";
      readonly after: string | null;
      readonly name: string;
      readonly working: string;
      /** Beside the cell in its row; in a row of its own where left out. */
      readonly row?: "same" | "new";
    }
  | { readonly ask: "copy cell"; readonly cell: string; readonly name: string }
  | { readonly ask: "move cell"; readonly cell: string; readonly to: CellPlace }
  | {
      readonly ask: "resize cell";
      readonly cell: string;
      /** Its width, and those of neighbours that give or take the difference. */
      readonly widths: readonly CellWidth[];
    }
  | { readonly ask: "remove cell"; readonly cell: string }
  /** Keeps what the meeting was told of a cell today. */
  | { readonly ask: "minute"; readonly cell: string; readonly text: string }
  /** Adds an action to those agreed, with today's day. */
  | { readonly ask: "agree"; readonly action: string }
  /** Rewrites an action agreed; without `to` it is taken out. */
  | { readonly ask: "change action"; readonly from: string; readonly to?: string }
  | { readonly ask: "rename cell"; readonly cell: string; readonly to: string }
  /** Writes what is given of the title page; an empty text takes it out. */
  | { readonly ask: "set title page"; readonly page: TitlePage }
  /** Holds a long recalculation, and lets it go on. */
  | { readonly ask: "stop" }
  | { readonly ask: "go on" }
  | { readonly ask: "undo" }
  | { readonly ask: "redo" }
  | { readonly ask: "pick"; readonly cell: string; readonly key: string }
  | {
      readonly ask: "complete";
      readonly cell: string;
      readonly text: string;
      readonly offset: number;
    }
  | { readonly ask: "check"; readonly cell: string; readonly text: string }
  | { readonly ask: "case rows"; readonly from: number; readonly count: number }
  | { readonly ask: "words" }
  | { readonly ask: "notebook text" };

/** What each request is answered with. */
export interface Replies extends CasesReplies, DepartmentsReplies, LeavingReplies {
  readonly "open notebook": Done;
  readonly "open cases": Done;
  readonly "set working": Done;
  readonly "set setting": Done;
  readonly "add cell": Done;
  readonly "copy cell": Done;
  readonly "move cell": Done;
  readonly "resize cell": Done;
  readonly "remove cell": Done;
  readonly minute: Done;
  readonly agree: Done;
  readonly "change action": Done;
  readonly "rename cell": Done;
  readonly "set title page": Done;
  readonly stop: Done;
  readonly "go on": Done;
  readonly undo: Done;
  readonly redo: Done;
  /** Null where the number is not in the answer any more. */
  readonly pick: { readonly title: string; readonly behind: PickedRows } | null;
  readonly complete: {
    readonly from: number;
    readonly to: number;
    readonly options: readonly Completion[];
  };
  readonly check: { readonly problems: readonly Problem[] };
  readonly "case rows": { readonly rows: readonly CaseRow[] };
  readonly words: { readonly words: readonly WordView[] };
  readonly "notebook text": { readonly name: string; readonly text: string };
}

/** Where a cell goes: before or behind another, in its row or in a row of its own. */
export interface CellPlace {
  readonly beside: string;
  readonly side: "before" | "behind";
  readonly row: "same" | "new";
}

/** A word of the vocabulary, for the form on the desk and for asking another question. */
export interface WordView {
  readonly name: string;
  readonly meaning: string;
  readonly parameters: readonly Parameter[];
  readonly answers: string;
  /** The question in the reader's words, where the word answers one: "How often did it fail?" */
  readonly asks?: string;
  /** A working that answers it, from which a new cell starts. */
  readonly example?: string;
}

export type News =
  | { readonly tell: "notebook"; readonly view: NotebookView }
  /** Cells that are being worked out from now on; what they show is the old answer. */
  | { readonly tell: "recalculating"; readonly cells: readonly string[] }
  | { readonly tell: "cells"; readonly views: readonly CellView[] }
  | { readonly tell: "cases"; readonly view: CasesView }
  /** Null where none are open. */
  | { readonly tell: "departments"; readonly view: DepartmentsView | null }
  | { readonly tell: "progress"; readonly progress: ProgressView }
  /** An error of our own in the worker: it is shown, never swallowed. */
  | { readonly tell: "broken"; readonly message: string };

/** Long work on its way; `finished` takes its line off the page. */
export interface ProgressView {
  readonly doing: string;
  /** Between 0 and 1, where it is known. */
  readonly share?: number;
  /** The reader may stop it and have it go on. */
  readonly canStop?: boolean;
  /** The reader has stopped it. */
  readonly stopped?: boolean;
  readonly finished: boolean;
}

/** What crosses to the worker, and back. */
export interface Posted<R extends Request = Request> {
  readonly id: number;
  readonly request: R;
}

export type Returned =
  | { readonly id: number; readonly reply: Replies[Request["ask"]] }
  | { readonly id: number; readonly broken: string }
  | News;

/** The notebook as the sheet lays it out. */
export interface NotebookView {
  readonly name: string;
  readonly title: string;
  readonly period?: string;
  /** With the days that the sheet is set to, where the period names others. */
  readonly periodAsSet?: string;
  /** The department, as the notebook names it. */
  readonly unit?: string;
  /** Who makes the report, and for whom. */
  readonly madeBy?: string;
  readonly reader?: string;
  /** What its cells are fed from outside; absent: nothing. */
  readonly restsOn?: readonly SheetInput[];
  /** The smallest count that a report to share shows, where the notebook says one. */
  readonly smallestCount?: number;
  readonly blocks: readonly BlockView[];
  readonly problems: readonly Problem[];
  /** Names of what would be undone and redone, for the buttons. */
  readonly undo?: string;
  readonly redo?: string;
}

/** What a sheet is fed from outside: a department's own cases, or several ones' aggregates. */
export type SheetInput = "cases" | "departments";

export type BlockView =
  | { readonly type: "heading"; readonly level: number; readonly text: string }
  | { readonly type: "prose"; readonly text: string }
  /** Cells that share a row of the sheet: one to four side by side. */
  | { readonly type: "row"; readonly cells: readonly string[] };

export interface CellView {
  readonly name: string;
  /** "failure rate", "setting", "value": what the margin says under the name. */
  readonly nature: string;
  /** What it is worth: a kind of value, or what a thing is `of` ("eyes", "answer"). */
  readonly kind?: string;
  readonly working: string;
  readonly status: "current" | "recalculating" | "waiting" | "at fault";
  readonly waitsFor: readonly string[];
  readonly problems: readonly Problem[];
  readonly answer?: Answer;
  readonly setting?: Setting;
  /** Of a setting of dates: what can be chosen at one press. */
  readonly presets?: readonly DatePreset[];
  /** A plain value or a table in words, where the cell is neither answer nor setting. */
  readonly plain?: string;
  /** The first rows of a table. */
  readonly preview?: AnswerTable;
  /** What would be minuted of it now: "60 of 442". */
  readonly toMinute?: string;
  readonly feedsOn: readonly string[];
  readonly feeds: readonly string[];
  /** Why it last recalculated, in words. */
  readonly because: string;
  readonly minuted: readonly MinutedView[];
  /** How many of the twelve columns of its row it is given; absent, what the others leave. */
  readonly columns?: number;
}

/** A range of days, whole days since 1970-01-01, under a name that the labels know. */
export interface DatePreset {
  readonly name: "last quarter" | "last financial year" | "all";
  readonly from: number;
  readonly to: number;
}

export interface MinutedView {
  readonly date: string;
  readonly text: string;
  readonly holds: boolean;
  /** Where it no longer holds: what the number is now. */
  readonly now?: string;
  /** Where it moved and that is known: what is different from then. */
  readonly because: readonly string[];
}

export interface CasesView {
  readonly file: string;
  /** The demo: cases are invented. */
  readonly invented: boolean;
  readonly facts?: FileFacts;
  /** Different eyes among the cases kept, where patient and eye are known. */
  readonly eyes?: number;
  /** Codes of surgeons and supervisors, to be hidden in a meeting. */
  readonly people?: readonly string[];
  readonly rowsRead: number;
  readonly casesKept: number;
  readonly leftOut: number;
  /** Rows left out, by reason, with their lines in the file. */
  readonly leftOutReasons?: readonly LeftOutReason[];
  readonly columns: readonly MatchedColumn[];
  /** Headings of `case rows`. */
  readonly headings: readonly string[];
  readonly problems: readonly Problem[];
  readonly leaf?: CasesLeafView;
}

export interface LeftOutReason {
  readonly reason: string;
  /** Where several files were put together. */
  readonly file?: string;
  readonly lines: readonly number[];
}
