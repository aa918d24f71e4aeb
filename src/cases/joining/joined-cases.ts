import type { Problem } from "../../problem/problem.ts";
import type { LeftOutRow } from "../case-reading.ts";
import type { UncheckedCases } from "../unchecked-cases.ts";
import type { JoinReport } from "./join-report.ts";

/** Two files as one, and what the second brought. */
export interface JoinedCases {
  readonly cases: UncheckedCases;
  readonly report: JoinReport;
  /** Rows of the second file that belong to no case. */
  readonly leftOut: readonly LeftOutRow[];
  /** What the two files disagree on. */
  readonly problems: readonly Problem[];
}
