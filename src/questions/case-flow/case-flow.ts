import type { CaseReading } from "../../cases/case-reading.ts";
import type { CaseFlow } from "../../charts/case-flow.ts";
import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { Answer, AnswerTable, LeftOut, PickRecord, Sentence } from "../answer.ts";
import { PickBook } from "../answering/answered-eyes.ts";
import { count, counted } from "../answering/wording.ts";
import { question, thingGiven, type Worked } from "../question.ts";
import { alone, type FlowStep, laterReason, stepsOfCases, stepsOfEyes } from "./flow-steps.ts";

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
  const [read, kept] = steps;
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
        // Operations that a check stopped; what became of the others is the answer itself.
        used: kept?.count ?? 0,
        leftOut: leavingOf(read === undefined ? [] : [read]),
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
      const queried = step.queried ?? [];
      const asked = [
        { text: queriedLabel, value: queriedLabel },
        keep(`s${position}:queried`, queriedLabel, alone(queried)),
      ];
      return [
        [...box, ...first],
        ...others.map((each) => [nothing, nothing, ...each]),
        ...(queried.length === 0 ? [] : [[...asked, nothing, nothing]]),
      ];
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
      ` and ${stopped === 0 ? "none" : count(stopped)} stopped by a check` +
      `${queriedClause(kept)}.${followedClause(kept, eyes)}`,
  ];
}

const queriedLabel = "of these, with a query";

/** Rows that a check asks about are kept, and counted. */
function queriedClause({ queried = [] }: FlowStep): string {
  if (queried.length === 0) return "";
  return `; about ${count(queried.length)} of those kept there is a query`;
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

function flowFigures(steps: readonly FlowStep[]): Answer["figures"] {
  const [read, kept, eyes] = steps;
  return {
    rows_read: read?.count ?? 0,
    rows_kept: kept?.count ?? 0,
    ...(eyes === undefined ? {} : { eyes: eyes.count }),
    headline: `${kept?.count ?? 0} of ${read?.count ?? 0}`,
    rows_stopped: (read?.count ?? 0) - (kept?.count ?? 0),
    rows_queried: kept?.queried?.length ?? 0,
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
