import type { AggregatesDefinition } from "../aggregates/aggregates-file.ts";
import type { Problem } from "../problem/problem.ts";
import type { AtStart } from "./cases-protocol.ts";
import type { Done } from "./done.ts";

/** What is asked of the worker about aggregates: those that departments sent, and one's own. */
export type DepartmentsRequest =
  /** Puts files to those that are open; what is invented gives way to a reader's own. */
  | ({
      readonly ask: "open departments";
      readonly files: readonly NamedBytes[];
      readonly invented?: true;
    } & AtStart)
  | { readonly ask: "remove department"; readonly unit: string }
  | ({ readonly ask: "write aggregates" } & AggregatesWanted);

export interface DepartmentsReplies {
  /** Done where at least one was opened; the problems say why others were not. */
  readonly "open departments": Done;
  readonly "remove department": Done;
  readonly "write aggregates":
    | { readonly name: string; readonly text: string; readonly told: AggregatesTold }
    | { readonly problems: readonly Problem[] };
}

export interface NamedBytes {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** What of one's own cases is handed over. */
export interface AggregatesWanted {
  /** The cell that holds the eyes; the first such cell where left out. */
  readonly eyes?: string;
  /** Name or code of the department; that of the notebook where left out. */
  readonly unit?: string;
  /** The smallest count that is told. */
  readonly smallestCount: number;
  /** Columns to group by besides technique and risk. */
  readonly by: readonly string[];
}

/** What a file of aggregates tells, and how much it withholds. */
export interface AggregatesTold {
  /** Absent where it withholds how many they are. */
  readonly eyes?: number;
  readonly smallestCount: number;
  readonly counts: { readonly all: number; readonly withheld: number };
  /** Of all eyes and of groups by one column: those whose times could be told. */
  readonly timed: { readonly all: number; readonly withheld: number };
  /** Columns that it groups by. */
  readonly by: readonly string[];
}

/** The departments whose aggregates are open. */
export interface DepartmentsView {
  /** The demo's: no such units. */
  readonly invented: boolean;
  /** What all of them count, and for how long they follow. */
  readonly definition: AggregatesDefinition;
  readonly departments: readonly DepartmentView[];
}

export interface DepartmentView extends AggregatesTold {
  readonly unit: string;
  readonly file: string;
  readonly period?: string;
}
