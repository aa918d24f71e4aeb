import type { AggregatesFile } from "../../aggregates/aggregates-file.ts";
import { columnNamed } from "../../cases/table.ts";
import { definitionsOf } from "../../notebook/notebook-document.ts";
import { type EyeRecord, isTimed } from "../../outcomes/eye-record.ts";
import type { Problem } from "../../problem/problem.ts";
import { pickRecord } from "../../questions/answering/answered-eyes.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import { reportOfSession } from "../report-of-session.ts";
import { coarseDates } from "../sharing/coarse-dates.ts";
import { keyOfDescribed, type RowsOnLines } from "../sharing/rows-on-lines.ts";
import { shownBySharedReport } from "../sharing/shared-report.ts";
import { aggregatesOfRecord } from "./aggregates-of-record.ts";
import { isHandedOver } from "./is-handed-over.ts";

export interface SessionAggregatesAsked {
  readonly version: string;
  /** The smallest count that is told; 2 or more. */
  readonly threshold: number;
  /** The cell that holds the eyes; the first such cell where left out. */
  readonly eyes?: string;
  /** Name or code of the department; that of the notebook where left out. */
  readonly unit?: string;
  /** Columns to group by besides technique and risk stratum. */
  readonly by: readonly string[];
}

type Outcome = { readonly aggregates: AggregatesFile } | { readonly problems: readonly Problem[] };

/**
 * The aggregates of a department from a settled session with its cases: counts of eyes by technique,
 * by risk stratum, by both, and by whatever more is asked for, with tables of times and causes,
 * suppressed by the rules of the shared report and so that the two papers together give nothing away.
 */
export function aggregatesOfSession(
  session: NotebookSession<never>,
  asked: SessionAggregatesAsked,
): Outcome {
  const found = eyesOf(session, asked.eyes);
  if ("problem" in found) return { problems: [found.problem] };
  const { record, cell } = found;
  const { rules } = record;
  if (rules?.window === undefined || !isTimed(record)) return { problems: [noWindow(cell)] };
  const unfit = asked.by.flatMap((name) => columnProblem(record, name));
  if (unfit.length > 0) return { problems: unfit };
  const input = reportOfSession(session, { version: asked.version, sha256: "" });
  const keys = keysOfEyes(record, input.cases.rowsOnLines);
  if (keys === undefined) return { problems: [notToldApart(cell)] };
  const { failure, oil, undecided, window } = rules;
  const aggregates = aggregatesOfRecord(
    record,
    {
      ...{ failure, oil, undecided, window: window.text, days: window.length },
      eyes: record.leftOut.some(({ reason }) => /\bthe condition\b/.test(reason))
        ? "chosen"
        : "all",
    },
    {
      ...{ version: asked.version, threshold: asked.threshold },
      unit: (asked.unit ?? input.department ?? "a department").slice(0, 200),
      ...(input.period === undefined ? {} : { period: coarseDates(input.period).slice(0, 200) }),
      groupings: groupingsOf(record, asked.by),
      before: shownBySharedReport(input, asked.threshold),
      keyOf: (eye) => keys[eye] ?? 0,
      ...(input.cases.patientOf === undefined ? {} : { patientOf: input.cases.patientOf }),
    },
  );
  return { aggregates };
}

/** Undefined where a row cannot be told from one of another file. */
function keysOfEyes(record: EyeRecord, rows: RowsOnLines | undefined): number[] | undefined {
  const described = pickRecord(record).describe(record.lines.map((_, eye) => eye));
  const keys = described.rows.flatMap((row) => keyOfDescribed(row, described.headings, rows) ?? []);
  return keys.length < described.rows.length ? undefined : keys;
}

function notToldApart(cell: string): Problem {
  return {
    code: "rows-not-told-apart",
    severity: "stop",
    place: { cell },
    message:
      "eyes of several files have the same case, patient and eye, so counts cannot be protected",
    expected: "eyes that no two files name alike",
    remedy: "give each file numbers of its own, or leave out one that holds the same operations",
  };
}

function groupingsOf(record: EyeRecord, by: readonly string[]): string[][] {
  const has = (name: string) => columnNamed(record.table, name) !== undefined;
  const usual = [["technique"], ["risk_stratum"], ["technique", "risk_stratum"]];
  const more = [...new Set(by)].filter((name) => name !== "technique" && name !== "risk_stratum");
  return [...usual.filter((columns) => columns.every(has)), ...more.map((name) => [name])];
}

function eyesOf(
  session: NotebookSession<never>,
  asked: string | undefined,
): { readonly record: EyeRecord; readonly cell: string } | { readonly problem: Problem } {
  const cells = definitionsOf(session.document).flatMap(({ name }) => {
    const state = session.sheet.state(name);
    if (state.status !== "current" || state.value.kind !== "thing") return [];
    return state.value.of === "eyes"
      ? [{ cell: name, record: state.value.content as EyeRecord }]
      : [];
  });
  const found = cells.find(({ cell }) => asked === undefined || cell === asked);
  if (found !== undefined) return found;
  return {
    problem: {
      code: "no-eyes-to-hand-over",
      severity: "stop",
      place: { file: session.name, ...(asked === undefined ? {} : { cell: asked }) },
      message:
        asked === undefined ? "no cell of the notebook holds eyes" : `${asked} holds no eyes`,
      expected:
        cells.length === 0
          ? "a cell such as eyes = index_eyes(cases, within: 12 months)"
          : `one of ${cells.map(({ cell }) => cell).join(", ")}`,
    },
  };
}

function noWindow(cell: string): Problem {
  return {
    code: "eyes-without-window",
    severity: "stop",
    place: { cell },
    message: "departments can be pooled only where eyes are followed for the same length of time",
    expected: 'eyes made by index_eyes with a window, under "redetachment" or "reoperation"',
    remedy: "write within: 12 months (or another length) into the cell",
  };
}

/** Nothing that names people or is free text, and nothing with many values. */
function columnProblem(record: EyeRecord, name: string): Problem[] {
  const column = columnNamed(record.table, name);
  if (column !== undefined && isHandedOver({ name, kind: column.kind })) return [];
  return [
    {
      code: "no-grouping-to-hand-over",
      severity: "stop",
      place: { field: name },
      message:
        column === undefined ? "the eyes have no such column" : "this column cannot be handed over",
      expected: "a column of codes or of yes and no that names nobody, such as macula",
    },
  ];
}
