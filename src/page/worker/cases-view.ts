import type { CaseReading, LeftOutRow } from "../../cases/case-reading.ts";
import { rowsByEye } from "../../cases/made-columns.ts";
import { columnNamed } from "../../cases/table.ts";
import type { CasesLeafView } from "../cases-protocol.ts";
import type { CasesView, LeftOutReason } from "../protocol.ts";

/** What the Cases leaf shows of a file that was read. */
export function casesView(
  reading: CaseReading,
  invented: boolean,
  leaf?: CasesLeafView,
): CasesView {
  const eyes = eyesOf(reading);
  return {
    file: reading.file.name,
    invented,
    facts: reading.file,
    ...(eyes !== undefined && { eyes }),
    people: peopleIn(reading),
    rowsRead: reading.rowsRead,
    casesKept: reading.lines.length,
    leftOut: reading.leftOut.length,
    leftOutReasons: byReason(reading.leftOut),
    columns: reading.columns,
    headings: reading.cases.columns.map(({ label }) => label),
    problems: reading.problems,
    ...(leaf && { leaf }),
  };
}

/** Different eyes among the cases, where the file says whose and which they are. */
function eyesOf({ cases }: CaseReading): number | undefined {
  const [patient, eye] = [columnNamed(cases, "patient"), columnNamed(cases, "eye")];
  if (patient === undefined || eye === undefined) return undefined;
  return rowsByEye(patient.values, eye.values).length;
}

/** Each code of a surgeon or a supervisor once, in the order of the file. */
function peopleIn({ cases }: CaseReading): readonly string[] {
  const columns = ["surgeon", "supervisor"].flatMap((name) => columnNamed(cases, name) ?? []);
  return [...new Set(columns.flatMap(({ values }) => [...values].filter(isText)))];
}

function isText(value: unknown): value is string {
  return typeof value === "string";
}

/** By reason and file, in the order in which they come first. */
function byReason(rows: readonly LeftOutRow[]): readonly LeftOutReason[] {
  const found = new Map<string, LeftOutReason & { readonly lines: number[] }>();
  for (const { reason, file, line } of rows) {
    const key = `${file ?? ""}\n${reason}`;
    const known = found.get(key);
    if (known === undefined) found.set(key, { reason, ...(file && { file }), lines: [line] });
    else known.lines.push(line);
  }
  return [...found.values()];
}
