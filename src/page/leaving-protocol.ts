import type { ReportedCell, ReportInput } from "../report/report-input.ts";

/** What is asked of the worker where something is to leave the page: a report, or one finding. */
export type LeavingRequest =
  | {
      readonly ask: "report";
      /** Made to be shared: the smallest count that is shown. Without it, for the department. */
      readonly smallestCount?: number;
    }
  | { readonly ask: "finding"; readonly cell: string };

/** Both are as the files are made from them, without what cannot cross: rows and words to call. */
export interface LeavingReplies {
  /** Once all is worked out; null without cases. */
  readonly report: ReportInput | null;
  /** Null where there is no such cell, or no cases. */
  readonly finding: ReportedCell | null;
}
