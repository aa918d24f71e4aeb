import type { Problem } from "../../problem/problem.ts";
import type { FileJoin, LeftOutRow } from "../case-reading.ts";
import type { FileCases } from "../read-opened.ts";
import type { UncheckedCases } from "../unchecked-cases.ts";
import { appendCases } from "./append-cases.ts";
import { followUpCases } from "./follow-up-cases.ts";
import type { FurtherFileKind } from "./join-report.ts";

export interface JoinedFiles {
  readonly cases: UncheckedCases;
  readonly joins: readonly FileJoin[];
  readonly leftOut: readonly LeftOutRow[];
  readonly problems: readonly Problem[];
}

/** Puts each further file together with all before it, in their order. */
export function joinFiles(
  first: FileCases,
  further: readonly { readonly as: FurtherFileKind; readonly read: FileCases }[],
): JoinedFiles {
  let { cases } = first;
  const joins: FileJoin[] = [];
  const leftOut: LeftOutRow[] = [];
  const problems: Problem[] = [];
  for (const { as, read } of further) {
    const joined =
      as === "follow-up" ? followUpCases(cases, read.cases) : appendCases(cases, read.cases);
    cases = joined.cases;
    const { facts: file, rowsRead, matching, columns } = read;
    joins.push({ file, as, rowsRead, matching, columns, ...joined.report });
    leftOut.push(...joined.leftOut);
    problems.push(...joined.problems);
  }
  return { cases, joins, leftOut, problems };
}
