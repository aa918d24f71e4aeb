import type { FailureCauses } from "../charts/causes-chart.ts";
import type { GivenArguments } from "../formula/vocabulary.ts";
import { type EyeRecord, eyeCount } from "../outcomes/eye-record.ts";
import type { AnswerTable, FigureRecord, Sentence } from "./answer.ts";
import { leftOutOf, PickBook, pickRecord } from "./answering/answered-eyes.ts";
import { asked } from "./answering/asked.ts";
import {
  causeNotRecorded,
  causesOverlap,
  clusteredIntervals,
  comparingPeople,
  pairedEyes,
  techniquesChosen,
} from "./answering/cautions.ts";
import { estimateCell } from "./answering/estimate-cell.ts";
import { type Grouping, notRecorded } from "./answering/grouping.ts";
import { shareInterval, shareMethod } from "./answering/share-interval.ts";
import { counted, listed, percent, percentRange } from "./answering/wording.ts";
import { byParameter, eyesParameter, question, type Worked, withinParameter } from "./question.ts";

/**
 * Why did it fail? The recorded causes of the failures, ordered, as counts and as shares of the
 * failed eyes. An eye with two causes counts under each, so shares may add to more than 1; eyes
 * with no recorded cause are shown, never spread over the others.
 */
export const failureCauses = question(
  {
    name: "failure_causes",
    meaning: "why they failed, ordered, with what is not recorded",
    asks: "Why did it fail?",
    example: "failure_causes(eyes, by: technique)",
    parameters: [eyesParameter, byParameter, withinParameter],
  },
  work,
);

interface Cause {
  readonly label: string;
  readonly eyes: readonly number[];
}

interface CauseParts {
  readonly record: EyeRecord;
  readonly grouping: Grouping;
  readonly failed: readonly number[];
  /** Most frequent first, what is not recorded last. */
  readonly causes: readonly Cause[];
}

function work(given: GivenArguments): Worked {
  const of = asked(given, { times: false });
  if ("problems" in of) return of;
  const { record, grouping, window } = of;
  const until = window?.length ?? Number.POSITIVE_INFINITY;
  const failed = Array.from(record.time, (_, eye) => eye).filter(
    (eye) => record.event[eye] === 1 && (record.time[eye] ?? 0) <= until,
  );
  return answer({ record, grouping, failed, causes: causesOf(record, failed) });
}

function causesOf(record: EyeRecord, failed: readonly number[]): Cause[] {
  const byCause = new Map<string, number[]>();
  for (const eye of failed) {
    const causes = record.causes[eye] ?? [];
    for (const cause of causes.length === 0 ? [notRecorded] : new Set(causes)) {
      const eyes = byCause.get(cause);
      if (eyes === undefined) byCause.set(cause, [eye]);
      else eyes.push(eye);
    }
  }
  const rank = (cause: Cause): number =>
    cause.label === notRecorded ? -2 : cause.label === "unknown" ? -1 : cause.eyes.length;
  return [...byCause]
    .map(([label, eyes]) => ({ label, eyes }))
    .sort((a, b) => rank(b) - rank(a) || (a.label < b.label ? -1 : 1));
}

function answer(parts: CauseParts): Worked {
  const { record, grouping, failed, causes } = parts;
  const picks = new PickBook();
  const silent = causes.find((cause) => cause.label === notRecorded)?.eyes.length ?? 0;
  return {
    answered: {
      answer: {
        question: "failure_causes",
        asks: "Why did it fail?",
        sentence: causeSentence(parts),
        brief: causeBrief(parts),
        table: causeTable(parts, picks),
        chart: { draw: "causes", causes: drawnCauses(parts) },
        cautions: [
          ...causeNotRecorded(silent, failed.length),
          ...causesOverlap(failed.filter((eye) => new Set(record.causes[eye]).size > 1).length),
          ...techniquesChosen(grouping.by),
          ...comparingPeople(grouping.by),
          ...pairedEyes(record, clusteredIntervals),
        ],
        unit: "eyes",
        used: failed.length,
        leftOut: [
          ...leftOutOf(record),
          { reason: "did not fail", count: eyeCount(record) - failed.length },
        ],
        figures: {
          failed: failed.length,
          not_recorded: silent,
          ...toldFigures(parts),
          headline: `${causes[0]?.eyes.length ?? 0} of ${failed.length}`,
          causes: causes.map((cause): FigureRecord => causeFigures(cause, parts)),
        },
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

/** Failed eyes with none of the three leading causes but another, and with no known cause. */
function toldFigures({ failed, causes }: CauseParts): FigureRecord {
  const known = knownCauses(causes);
  const withKnown = new Set(known.flatMap(({ eyes }) => eyes));
  const leading = new Set(known.slice(0, 3).flatMap(({ eyes }) => eyes));
  return {
    another_cause: withKnown.size - leading.size,
    cause_not_known: failed.length - withKnown.size,
  };
}

function knownCauses(causes: readonly Cause[]): readonly Cause[] {
  return causes.filter(({ label }) => label !== notRecorded && label !== "unknown");
}

/** The rows of the table lead to the same eyes, under the same keys. */
function drawnCauses({ causes, failed }: CauseParts): FailureCauses {
  return {
    total: failed.length,
    causes: causes.map((cause, position) => ({
      label: cause.label,
      count: cause.eyes.length,
      share: cause.eyes.length / failed.length,
      unknown: cause.label === notRecorded,
      pick: `k${position}`,
    })),
  };
}

function causeFigures(cause: Cause, { failed, grouping }: CauseParts): FigureRecord {
  const shares = {
    cause: cause.label,
    eyes: cause.eyes.length,
    share: cause.eyes.length / failed.length,
  };
  if (grouping.label === undefined) return shares;
  const groups = grouping.groups.map((group) => ({
    group: group.label,
    eyes: inGroup(cause, group.eyes).length,
  }));
  return { ...shares, groups };
}

function inGroup(cause: Cause, group: readonly number[]): number[] {
  const members = new Set(group);
  return cause.eyes.filter((eye) => members.has(eye));
}

function causeSentence({ record, failed, causes }: CauseParts): Sentence {
  if (eyeCount(record) === 0) return ["No eyes to count."];
  if (failed.length === 0)
    return [`No failure is recorded among ${counted(eyeCount(record), "eye")}.`];
  const known = knownCauses(causes);
  const total = { text: counted(failed.length, "eye"), role: "failed" as const };
  if (known.length === 0) return silentSentence(total);
  const named = known
    .slice(0, 3)
    .map(({ label, eyes }) => `${label} in ${eyes.length} (${shareWords(record, eyes, failed)})`);
  const withKnown = new Set(known.flatMap((cause) => cause.eyes));
  const silent = failed.length - withKnown.size;
  const others = withKnown.size - new Set(known.slice(0, 3).flatMap((cause) => cause.eyes)).size;
  return [
    "Of the ",
    total,
    ` that failed, the recorded cause was ${listed(named)}`,
    others === 0 ? "" : `, another in ${others}`,
    silent === 0 ? "" : `; no cause is known for ${silent}`,
    ` (95% ${shareMethod(record, failed)} interval${named.length === 1 ? "" : "s"}).`,
  ];
}

/** "38.6%, 27.8 to 50.6%". */
function shareWords(record: EyeRecord, eyes: readonly number[], failed: readonly number[]): string {
  const limits = shareInterval(record, eyes, failed);
  const share = percent(eyes.length / failed.length);
  return limits === null ? share : `${share}, ${percentRange(limits)}`;
}

function silentSentence(failed: { readonly text: string; readonly role: "failed" }): Sentence {
  const whom = failed.text === "1 eye" ? "the " : "any of the ";
  return [`No cause is known for ${whom}`, failed, " that failed."];
}

/** "Why 69 eyes failed: PVR in 35, new break in 18; not recorded in 6." */
function causeBrief({ failed, causes }: CauseParts): Sentence {
  if (failed.length === 0) return [];
  const known = knownCauses(causes);
  const silent = failed.length - new Set(known.flatMap(({ eyes }) => eyes)).size;
  const named = known.slice(0, 3).map(({ label, eyes }) => `${label} in ${eyes.length}`);
  const unknown = silent === 0 ? [] : [`not known in ${silent}`];
  return [
    "Why ",
    { text: counted(failed.length, "eye"), role: "failed" },
    ` failed: ${[...named, ...unknown].join(", ")}.`,
  ];
}

function causeTable(
  { record, grouping, failed, causes }: CauseParts,
  picks: PickBook,
): AnswerTable {
  const split = grouping.label !== undefined;
  return {
    columns: [
      { label: "cause", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: `share of failures (95% ${shareMethod(record, failed)})`, kind: "estimate" },
      ...(split
        ? grouping.groups.map((group) => ({ label: group.label, kind: "number" as const }))
        : []),
    ],
    rows: causes.map((cause, position) => [
      { text: cause.label, value: cause.label },
      picks.cell(`k${position}`, cause.label, cause.eyes),
      estimateCell(cause.eyes.length / failed.length, shareInterval(record, cause.eyes, failed)),
      ...(split
        ? grouping.groups.map((group, column) => {
            const eyes = inGroup(cause, group.eyes);
            return picks.cell(`k${position}:g${column}`, `${cause.label}, ${group.label}`, eyes);
          })
        : []),
    ]),
  };
}
