import type { CaseReading } from "../../cases/case-reading.ts";
import { rowCount } from "../../cases/table.ts";
import { type EyeRecord, eyeCount } from "../../outcomes/eye-record.ts";
import { queriedLines } from "../../outcomes/queried-lines.ts";
import { stoppedByReason } from "../../outcomes/stopped-rows.ts";
import { counted } from "../answering/wording.ts";

/** One box of the flow, and what leaves after it; a box less what leaves is the next box. */
export interface FlowStep {
  readonly label: string;
  readonly count: number;
  /** Lines of the file, one entry for each of `count`. */
  readonly lines: readonly (readonly number[])[];
  /** Lines of its rows about which a query is open. */
  readonly queried?: readonly number[];
  /** Rows, whichever box they leave. */
  readonly leaving: readonly { readonly reason: string; readonly lines: readonly number[] }[];
}

/** The boxes of a file of cases: rows read, rows kept. */
export function stepsOfCases(reading: CaseReading): FlowStep[] {
  const stopped = stoppedByReason(reading);
  const kept = reading.lines.map((line) => [line]);
  return [
    {
      label: "rows read",
      count: reading.rowsRead,
      lines: [...kept, ...stopped.flatMap((each) => alone(each.lines))],
      leaving: stopped,
    },
    {
      label: "rows kept",
      count: rowCount(reading.cases),
      lines: kept,
      queried: queriedLines(reading),
      leaving: [],
    },
  ];
}

/** Each line as an entry of its own. */
export function alone(lines: readonly number[]): (readonly number[])[] {
  return lines.map((line) => [line]);
}

/** The boxes of a record of eyes: rows read, operations kept, eyes followed, how these ended. */
export function stepsOfEyes(record: EyeRecord): FlowStep[] {
  const { flow } = record;
  const kept = [...record.lines, ...record.leftOut.map((each) => each.lines)].flatMap(alone);
  const later = record.lines.flatMap((lines) => lines.slice(1));
  const out = leftOutByReason(record);
  return [
    {
      label: "rows read",
      count: flow.rowsRead,
      lines: [...kept, ...flow.rowsStopped.flatMap((each) => alone(each.lines))],
      leaving: flow.rowsStopped,
    },
    {
      label: "operations kept",
      count: flow.rows,
      lines: kept,
      queried: flow.rowsQueried ?? [],
      leaving: [...(later.length === 0 ? [] : [{ reason: laterReason, lines: later }]), ...out],
    },
    { label: "eyes followed", count: eyeCount(record), lines: record.lines, leaving: [] },
    ...endings(record),
  ];
}

/** The rows of eyes that are not followed, by reason; how many eyes stands in the words. */
function leftOutByReason(record: EyeRecord): FlowStep["leaving"] {
  const byReason = new Map<string, { eyes: number; lines: number[] }>();
  for (const { reason, lines } of record.leftOut) {
    const group = byReason.get(reason) ?? { eyes: 0, lines: [] };
    byReason.set(reason, { eyes: group.eyes + 1, lines: [...group.lines, ...lines] });
  }
  return [...byReason].map(([reason, { eyes, lines }]) => ({
    reason: eyes === lines.length ? reason : `${reason} (${counted(eyes, "eye")})`,
    lines,
  }));
}

/** How the eyes stand at the end of their follow-up, most frequent first. */
function endings(record: EyeRecord): FlowStep[] {
  const byState = new Map<string, (readonly number[])[]>();
  record.state.forEach((_, eye) => {
    const label = endingOf(record, eye);
    const lines = record.lines[eye] ?? [];
    const group = byState.get(label);
    if (group === undefined) byState.set(label, [lines]);
    else group.push(lines);
  });
  return [...byState]
    .map(([label, lines]) => ({ label, count: lines.length, lines, leaving: [] }))
    .sort((a, b) => b.count - a.count);
}

/** Attached to the window's end is one thing, attached when last seen before it another. */
function endingOf(record: EyeRecord, eye: number): string {
  const state = record.state[eye] ?? "unknown";
  const { window } = record;
  if (record.undecided[eye] === 1) return `undecided: ${state === "unknown" ? "not known" : state}`;
  if (state !== "attached" || window === undefined) return state;
  return (record.time[eye] ?? 0) >= window.length
    ? `attached at ${window.text}`
    : "last seen attached, then lost or not yet due";
}

/** Why a row of an eye that is followed is in no box of eyes. */
export const laterReason = "later operations on eyes followed";
