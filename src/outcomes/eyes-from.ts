import type { CaseReading } from "../cases/case-reading.ts";
import { columnNamed, rowCount, rowsOf, withColumn } from "../cases/table.ts";
import type { EyeRecord, EyeState, LeftOutEye, TimeUnit } from "./eye-record.ts";
import type { TimeWindow } from "./outcome-rules.ts";
import { queriedLines } from "./queried-lines.ts";
import { stoppedByReason } from "./stopped-rows.ts";

export interface TimesAndEvents {
  /** Follow-up of a row, in `unit`; null where missing. */
  readonly time: (row: number) => number | null;
  /** Whether the row failed at that time; null where missing. */
  readonly event: (row: number) => boolean | null;
  readonly unit: TimeUnit;
  /** Links rows of one person; by default the `patient` column, where there is one. */
  readonly patient?: (row: number) => string | null;
  readonly window?: TimeWindow;
}

/**
 * Eyes from a file that already holds one row an eye with its time and event. Rows whose time or
 * event is missing, or whose time is below 0, are left out with their reason. Times are kept in
 * the file's own unit, unrounded.
 */
export function eyesFrom(reading: CaseReading, given: TimesAndEvents): EyeRecord {
  const leftOut: LeftOutEye[] = [];
  const kept: number[] = [];
  for (let row = 0; row < rowCount(reading.cases); row++) {
    const reason = whyLeftOut(given.time(row), given.event(row));
    if (reason === undefined) kept.push(row);
    else leftOut.push({ reason, lines: [reading.lines[row] ?? 0] });
  }
  const ends = kept.map((row) =>
    cut(given.time(row) ?? 0, given.event(row) === true, given.window),
  );
  const state = ends.map((end): EyeState => (end.event ? "failed" : "attached"));
  const patients = columnNamed(reading.cases, "patient")?.values;
  const patientOf =
    given.patient ??
    ((row: number) => {
      const patient = patients?.[row] ?? null;
      return patient === null ? null : String(patient);
    });
  const table = rowsOf(reading.cases, kept);
  const timed = withColumn(table, {
    name: "time",
    label: "follow-up",
    kind: "number",
    unit: given.unit,
    values: ends.map((end) => end.time),
  });
  return {
    table: withColumn(timed, {
      name: "event",
      label: "failed",
      kind: "truth",
      values: ends.map((end) => end.event),
    }),
    time: Float64Array.from(ends, (end) => end.time),
    event: Uint8Array.from(ends, (end) => (end.event ? 1 : 0)),
    undecided: new Uint8Array(kept.length),
    state,
    causes: kept.map(() => []),
    patient: kept.map(patientOf),
    lines: kept.map((row) => [reading.lines[row] ?? 0]),
    timeUnit: given.unit,
    ...(given.window === undefined ? {} : { window: given.window }),
    leftOut,
    flow: {
      rowsRead: reading.rowsRead,
      rowsStopped: stoppedByReason(reading),
      rows: rowCount(reading.cases),
      rowsQueried: queriedLines(reading),
      primaryRows: kept.length,
      laterRows: 0,
    },
  };
}

function whyLeftOut(time: number | null, event: boolean | null): string | undefined {
  if (time === null) return "the time is not recorded";
  if (event === null) return "whether it failed is not recorded";
  return time < 0 ? "the time is below 0" : undefined;
}

function cut(time: number, event: boolean, window: TimeWindow | undefined) {
  if (window === undefined || time <= window.length) return { time, event };
  return { time: window.length, event: false };
}
