import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { PooledFile, ReportedCases, ReportInput } from "../report-input.ts";
import { reportOfSession } from "../report-of-session.ts";

/** What the report of a settled session is made from that rests on aggregates and on no cases. */
export function pooledReport(
  session: NotebookSession<never>,
  facts: {
    readonly version: string;
    readonly dated?: string;
    readonly aggregates: readonly PooledFile[];
  },
): ReportInput {
  const { aggregates, ...rest } = facts;
  return { ...reportOfSession(session, { ...rest, sha256: "", cases: noCases }), aggregates };
}

const noCases: ReportedCases = {
  file: { name: "", bytes: 0, encoding: "", delimiter: "," },
  sha256: "",
  laid: [],
  ...{ rowsRead: 0, rowsKept: 0, rowsLeftOut: 0, queries: 0 },
  ...{ fields: [], problems: [], people: [], textColumns: [] },
};
