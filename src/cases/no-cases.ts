import type { CaseReading, LeftOutRow } from "./case-reading.ts";
import type { Matching } from "./matching.ts";
import type { OpenedCases } from "./open-cases.ts";
import { tableOf } from "./table.ts";

/** The reading of a file without cases. The notebook's matching stays as it was. */
export function noCases(opened: OpenedCases, matching: Matching | undefined): CaseReading {
  const { facts } = opened;
  const leftOut = [...opened.leftOut, ...rowsStopped(opened)];
  return {
    file: facts,
    rowsRead: leftOut.length,
    cases: tableOf([]),
    lines: [],
    leftOut,
    matching: matching ?? { columns: new Map(), values: new Map() },
    columns: [],
    problems: opened.problems.map((problem) => ({
      ...problem,
      place: { file: facts.name, ...problem.place },
    })),
  };
}

/** Rows that were read and are left out because of what stops the file. */
export function rowsStopped({ lines, problems }: OpenedCases): readonly LeftOutRow[] {
  const stop = problems.findLast(({ severity }) => severity === "stop");
  return lines.map((line) => ({ line, code: stop?.code ?? "", reason: stop?.message ?? "" }));
}
