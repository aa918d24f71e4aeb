import type { CaseReading } from "../../cases/case-reading.ts";
import type { Course } from "../../charts/course.ts";
import type { GivenArguments, RowExpression } from "../../formula/vocabulary.ts";
import { coursesAfterFailure, lastStates } from "../../outcomes/after-failure.ts";
import { type EyeRecord, eyeCount } from "../../outcomes/eye-record.ts";
import { indexEyes } from "../../outcomes/index-eyes.ts";
import type { Problem } from "../../problem/problem.ts";
import type { PickRecord } from "../answer.ts";
import { leftOutOf, PickBook } from "../answering/answered-eyes.ts";
import {
  clusteredIntervals,
  comparingPeople,
  pairedEyes,
  smallNumbers,
  techniquesChosen,
} from "../answering/cautions.ts";
import { casesParameter, selectionGiven, selectionParameters } from "../answering/eye-selection.ts";
import { groupEyes } from "../answering/grouping.ts";
import { pickRecordAlso } from "../answering/pick-record-also.ts";
import { rowColumns } from "../answering/row-columns.ts";
import { durationText, timeIn } from "../answering/time-words.ts";
import {
  byParameter,
  durationGiven,
  question,
  thingGiven,
  type Worked,
  withinParameter,
} from "../question.ts";
import {
  type AfterFailureParts,
  byNextStep,
  courseGroup,
  stepLabel,
} from "./after-failure-parts.ts";
import { afterFailureBrief, afterFailureSentence } from "./after-failure-sentence.ts";
import { afterFailureFigures, afterFailureTable } from "./after-failure-table.ts";
import { endsNotDecided } from "./ends-not-decided.ts";
import { firstFailureRule } from "./first-failure-rule.ts";

/**
 * What was done after it failed? Eyes from their first failure (never flat, redetached, operated on
 * again, or detached at the last visit) through what was done next to how they were last known:
 * attached without oil, under oil, detached; after how many operations; and how many suspected
 * failures settled by themselves.
 */
export const afterFailure = question(
  {
    name: "after_failure",
    meaning: "what was done after a first failure, and how it ended",
    asks: "What was done after it failed?",
    example: "after_failure(cases, within: 12 months)",
    parameters: [
      casesParameter,
      byParameter,
      { ...withinParameter, whenLeftOut: "first failures at any time" },
      {
        name: "detail",
        meaning: "a column that says more of the next operation, such as how a buckle was revised",
        takes: "row",
        kinds: ["text"],
        required: false,
        whenLeftOut: "for a buckle revision, the element that was added, where recorded",
      },
      ...selectionParameters,
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const reading = thingGiven(given, "cases").content as CaseReading;
  const selected = selectionGiven(given, reading);
  const detail = detailGiven(given.rows.get("detail"), reading);
  const problems = [selected, detail].flatMap((each) => ("problems" in each ? each.problems : []));
  if ("problems" in selected || "problems" in detail) return { problems };
  const record = indexEyes(
    reading,
    { failure: "redetachment", oil: "counted as attached", undecided: "bounds" },
    selected.selection,
  );
  const grouped = groupEyes(record, given.rows.get("by"));
  if ("problems" in grouped) return grouped;
  const within = durationGiven(given, "within");
  const courses = coursesAfterFailure(reading, record, {
    ...detail,
    ...(within === undefined ? {} : { until: timeIn("days", within) }),
  });
  const window = within === undefined ? undefined : { text: durationText(within) };
  return answer({ record, grouping: grouped.grouping, courses, window });
}

function detailGiven(
  expression: RowExpression | undefined,
  reading: CaseReading,
):
  | { readonly detail?: (row: number) => string | null }
  | { readonly problems: readonly Problem[] } {
  if (expression === undefined) return {};
  const bound = expression.over(rowColumns(reading.cases));
  if (!bound.ok) return { problems: bound.problems };
  const { column } = bound;
  if (column.kind !== "text" && column.kind !== "codes")
    return { problems: [notTexts(expression)] };
  return {
    detail: (row) => {
      const value = column.at(row);
      if (value === null) return null;
      return typeof value === "object" ? value.join(" and ") || null : String(value);
    },
  };
}

function notTexts(expression: RowExpression): Problem {
  return {
    code: "not-texts",
    severity: "stop",
    place: { span: expression.span },
    message: `${expression.text} does not say anything in words`,
    found: expression.text,
    expected: "a column of texts or codes",
  };
}

function answer(parts: AfterFailureParts): Worked {
  const { record, grouping, courses } = parts;
  const picks = new PickBook();
  const table = afterFailureTable(parts, picks);
  keepPicks(parts, picks);
  const all = courseGroup(record, "all first failures", courses.failed);
  return {
    answered: {
      answer: {
        question: "after_failure",
        asks: "What was done after it failed?",
        sentence: afterFailureSentence(parts),
        brief: afterFailureBrief(parts),
        table,
        ...(courses.failed.length === 0 ? {} : { chart: { draw: "course", course: drawn(parts) } }),
        cautions: [
          firstFailureRule(),
          ...smallNumbers([
            { label: "all eyes", failed: courses.failed.length, eyes: courses.failed.length },
          ]),
          ...techniquesChosen(["technique"]),
          ...comparingPeople(grouping.by),
          ...endsNotDecided(courses.failed.length - all.decided, courses.failed.length),
          ...pairedEyes(record, clusteredIntervals),
        ],
        unit: "eyes",
        used: courses.failed.length,
        leftOut: [
          ...leftOutOf(record),
          { reason: "did not fail", count: eyeCount(record) - courses.failed.length },
        ],
        figures: afterFailureFigures(parts),
      },
      picks: picks.picks,
      record: describedRecord(record, parts),
    },
  };
}

/** Eyes that the sentence opens. */
function keepPicks({ record, courses }: AfterFailureParts, picks: PickBook): void {
  const all = courseGroup(record, "all first failures", courses.failed);
  const eyes = courses.failed.map(({ eye }) => eye);
  picks.add("failed", "first failures", eyes);
  for (const state of lastStates) {
    picks.add(`ended:${state}`, `failed, last ${state}`, all.byState.get(state) ?? []);
  }
  const open = new Set(["under observation", "unknown"]);
  const decided = courses.failed.filter(({ last }) => !open.has(last));
  picks.add(
    "ended:decided",
    "failed, state decided",
    decided.map(({ eye }) => eye),
  );
  const { suspected } = courses;
  const settled = suspected.filter(({ ending }) => ending === "settled");
  picks.add(
    "suspected",
    "suspected failures",
    suspected.map(({ eye }) => eye),
  );
  picks.add(
    "suspected:settled",
    "suspected failures that settled",
    settled.map(({ eye }) => eye),
  );
}

/** The first rows of the table lead to the same eyes, under the same keys. */
function drawn({ record, courses }: AfterFailureParts): Course {
  const steps = byNextStep(record, courses.failed);
  return {
    start: { label: "first failures", count: courses.failed.length, pick: `n${steps.length}` },
    steps: steps.map((group, position) => ({
      label: group.label,
      count: group.courses.length,
      pick: `n${position}`,
      ends: lastStates
        .filter((state) => (group.byState.get(state)?.length ?? 0) > 0)
        .map((state) => ({
          label: state,
          count: group.byState.get(state)?.length ?? 0,
          pick: `n${position}:${state}`,
          ...(state === "attached" ? { tone: "attached" as const } : {}),
          ...(state === "detached" ? { tone: "failed" as const } : {}),
        })),
    })),
  };
}

function describedRecord(record: EyeRecord, { courses }: AfterFailureParts): PickRecord {
  const byEye = new Map(courses.failed.map((course) => [course.eye, course]));
  const suspicions = new Map(courses.suspected.map(({ eye, ending }) => [eye, ending]));
  return pickRecordAlso(record, {
    headings: ["failed on", "done next", "last known", "further operations"],
    texts: (eye) => {
      const course = byEye.get(eye);
      const suspicion = suspicions.get(eye);
      const doubt = suspicion === undefined ? "–" : `under observation: ${suspicion}`;
      if (course === undefined) return ["–", "–", doubt, "–"];
      return [
        `day ${course.failedDay}`,
        stepLabel(course.next),
        course.last,
        String(course.operations),
      ];
    },
  });
}
