import type { CaseReading } from "../cases/case-reading.ts";
import { rowCount } from "../cases/table.ts";
import type { CaseFlow } from "../charts/case-flow.ts";
import type { GivenArguments } from "../formula/vocabulary.ts";
import { type EyeRecord, eyeCount } from "../outcomes/eye-record.ts";
import { stoppedByReason } from "../outcomes/stopped-rows.ts";
import type { Answer, AnswerTable, LeftOut, PickRecord, Sentence } from "./answer.ts";
import { PickBook } from "./answering/answered-eyes.ts";
import { count, counted } from "./answering/wording.ts";
import { question, thingGiven, type Worked } from "./question.ts";

/**
 * What became of every row of the file: read, stopped by a check, primary repair or later
 * operation, and every eye that was left out, with its reason. No row is lost between the boxes.
 */
export const caseFlow = question(
  {
    name: "case_flow",
    meaning: "rows read, left out and why, eyes analysed",
    asks: "What became of every row?",
    example: "case_flow(eyes)",
    parameters: [
      {
        name: "of",
        meaning: "the cases, or the eyes made from them",
        takes: "value",
        kinds: ["cases", "eyes"],
        required: true,
      },
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const thing = thingGiven(given, "of");
  const steps =
    thing.of === "eyes"
      ? stepsOfEyes(thing.content as EyeRecord)
      : stepsOfCases(thing.content as CaseReading);
  return answer(steps);
}

/** One box of the flow, and what leaves after it; a box less what leaves is the next box. */
export interface FlowStep {
  readonly label: string;
  readonly count: number;
  /** Lines of the file, one entry for each of `count`. */
  readonly lines: readonly (readonly number[])[];
  /** Rows, whichever box they leave. */
  readonly leaving: readonly { readonly reason: string; readonly lines: readonly number[] }[];
}

function stepsOfCases(reading: CaseReading): FlowStep[] {
  const stopped = stoppedByReason(reading);
  const kept = reading.lines.map((line) => [line]);
  return [
    {
      label: "rows read",
      count: reading.rowsRead,
      lines: [...kept, ...stopped.flatMap((each) => alone(each.lines))],
      leaving: stopped,
    },
    { label: "rows kept", count: rowCount(reading.cases), lines: kept, leaving: [] },
  ];
}

function alone(lines: readonly number[]): (readonly number[])[] {
  return lines.map((line) => [line]);
}

function stepsOfEyes(record: EyeRecord): FlowStep[] {
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

function answer(steps: readonly FlowStep[]): Worked {
  const picks = new PickBook();
  const lines: (readonly number[])[] = [];
  const keep = (key: string, title: string, entries: readonly (readonly number[])[]) => {
    const first = lines.length;
    lines.push(...entries);
    return picks.cell(
      key,
      title,
      entries.map((_, position) => first + position),
    );
  };
  const table = flowTable(steps, keep);
  const leftOut = leavingOf(steps);
  return {
    answered: {
      answer: {
        question: "case_flow",
        asks: "What became of every row?",
        sentence: flowSentence(steps),
        table,
        chart: { draw: "flow", flow: drawnFlow(steps) },
        cautions: [],
        unit: "cases",
        used: steps[0]?.count ?? 0,
        leftOut,
        figures: flowFigures(steps),
      } satisfies Answer,
      picks: picks.picks,
      record: lineRecord(lines),
    },
  };
}

/** The first three steps are stages; those after are how the eyes stand at the end. */
function drawnFlow(steps: readonly FlowStep[]): CaseFlow {
  return {
    stages: steps.slice(0, stages).map((step, position) => ({
      label: step.label,
      count: step.count,
      pick: `s${position}`,
      leftOut: step.leaving.map(({ reason, lines }, place) => ({
        label: reason,
        count: lines.length,
        pick: `s${position}:${place}`,
      })),
    })),
    outcomes: steps.slice(stages).map((step, position) => ({
      label: step.label,
      count: step.count,
      pick: `s${stages + position}`,
      ...toneOf(step.label),
    })),
  };
}

const stages = 3;

/** Eyes lost before the window are drawn in no colour: they are no success. */
function toneOf(label: string): { readonly tone?: "failed" | "attached" } {
  if (label === "failed") return { tone: "failed" };
  return label.startsWith("attached") && label !== "attached under oil" ? { tone: "attached" } : {};
}

function leavingOf(steps: readonly FlowStep[]): LeftOut[] {
  return steps.flatMap((step) =>
    step.leaving.map(({ reason, lines }) => ({ reason, count: lines.length })),
  );
}

function flowTable(
  steps: readonly FlowStep[],
  keep: (key: string, title: string, lines: FlowStep["lines"]) => ReturnType<PickBook["cell"]>,
): AnswerTable {
  return {
    columns: [
      { label: "", kind: "text" },
      { label: "count", kind: "number" },
      { label: "rows leaving", kind: "text" },
      { label: "rows", kind: "number" },
    ],
    rows: steps.flatMap((step, position) => {
      const box = [
        { text: step.label, value: step.label },
        keep(`s${position}`, step.label, step.lines),
      ];
      const nothing = { text: "", value: null };
      const leaving = step.leaving.map(({ reason, lines }, place) => [
        { text: reason, value: reason },
        keep(`s${position}:${place}`, reason, alone(lines)),
      ]);
      const [first = [nothing, nothing], ...others] = leaving;
      return [[...box, ...first], ...others.map((each) => [nothing, nothing, ...each])];
    }),
  };
}

function flowSentence(steps: readonly FlowStep[]): Sentence {
  const [read, kept, eyes] = steps;
  if (read === undefined || kept === undefined) return ["No rows were read."];
  const stopped = read.count - kept.count;
  const were = kept.count === 1 ? "was" : "were";
  return [
    `Of ${counted(read.count, "row")} read, ${count(kept.count)} ${were} kept` +
      ` and ${stopped === 0 ? "none" : count(stopped)} stopped by a check.${followedClause(kept, eyes)}`,
  ];
}

function followedClause(kept: FlowStep, eyes: FlowStep | undefined): string {
  if (eyes === undefined) return "";
  const later = kept.leaving.find(({ reason }) => reason === laterReason)?.lines.length ?? 0;
  const leaving = kept.leaving.reduce((sum, each) => sum + each.lines.length, 0);
  const out = leaving - later;
  return (
    ` They hold the primary repairs of ${counted(eyes.count, "eye")} and ` +
    `${counted(later, "later operation")} on them` +
    (out === 0
      ? "."
      : `; ${counted(out, "row")} could not be followed or lay outside the question.`)
  );
}

const laterReason = "later operations on eyes followed";

function flowFigures(steps: readonly FlowStep[]): Answer["figures"] {
  const [read, kept, eyes] = steps;
  return {
    rows_read: read?.count ?? 0,
    rows_kept: kept?.count ?? 0,
    ...(eyes === undefined ? {} : { eyes: eyes.count }),
    headline: `${kept?.count ?? 0} of ${read?.count ?? 0}`,
    rows_stopped: (read?.count ?? 0) - (kept?.count ?? 0),
    left_out: leavingOf(steps).map(({ reason, count: number }) => ({ reason, count: number })),
    ...(steps.length <= stages
      ? {}
      : { states: steps.slice(stages).map((step) => ({ state: step.label, eyes: step.count })) }),
  };
}

function lineRecord(lines: readonly (readonly number[])[]): PickRecord {
  return {
    describe: (rows) => ({
      headings: ["operations"],
      rows: Array.from(rows, (row) => ({
        lines: lines[row] ?? [],
        texts: [String((lines[row] ?? []).length)],
      })),
    }),
  };
}
