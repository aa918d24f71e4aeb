import type { GivenArguments, RowExpression } from "../../formula/vocabulary.ts";
import { type EyeRecord, eyeCount } from "../../outcomes/eye-record.ts";
import type { Span } from "../../problem/problem.ts";
import type { Caution, LeftOut } from "../answer.ts";
import { leftOutOf, PickBook } from "../answering/answered-eyes.ts";
import {
  clusteredIntervals,
  comparingPeople,
  manyLeftOut,
  manyNotKnown,
  pairedEyes,
  smallNumbers,
  techniquesChosen,
  whatWasAssumed,
} from "../answering/cautions.ts";
import { groupEyes } from "../answering/grouping.ts";
import { pickRecordAlso } from "../answering/pick-record-also.ts";
import { windowOf } from "../answering/window.ts";
import {
  byParameter,
  eyesGiven,
  eyesParameter,
  numberGiven,
  question,
  type Worked,
  withinParameter,
} from "../question.ts";
import { youngParameter } from "./buckle-words.ts";
import { notARecommendation } from "./not-a-recommendation.ts";
import { type SuitabilityParts, suitabilityParts } from "./suitability-parts.ts";
import { suitabilityBrief, suitabilitySentence } from "./suitability-sentence.ts";
import { drawnSuitability, suitabilityFigures, suitabilityTable } from "./suitability-table.ts";

/**
 * Was it the operation, or the choice of it? Failure by technique within eyes whose recorded
 * features speak for a buckle, against it, both ways or neither. The features are common practice
 * without a source, counted and never weighted, and the answer never recommends an operation.
 */
export const suitability = question(
  {
    name: "suitability",
    meaning: "failure by technique within eyes with features for and against a buckle",
    asks: "Was it the operation, or the choice of it?",
    example: "suitability(eyes)",
    parameters: [
      eyesParameter,
      { ...byParameter, whenLeftOut: "technique" },
      withinParameter,
      youngParameter,
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const windowed = windowOf(record, given);
  const grouped = groupEyes(record, given.rows.get("by") ?? byTechnique(record, given.span));
  const problems = [windowed, grouped].flatMap((each) => ("problems" in each ? each.problems : []));
  if ("problems" in windowed || "problems" in grouped) return { problems };
  const young = numberGiven(given, "young");
  return answer(
    suitabilityParts(record, grouped.grouping, {
      window: windowed.window,
      ...(young === undefined ? {} : { young }),
    }),
  );
}

/** What stands for `by` where it is left out; no eyes need no column. */
function byTechnique(record: EyeRecord, span: Span): RowExpression | undefined {
  if (eyeCount(record) === 0) return undefined;
  const text = "technique";
  return {
    text,
    span,
    over: (columns) => {
      const column = columns.column(text);
      if (column !== undefined) return { ok: true, column, names: [text] };
      const problem = {
        code: "no-technique",
        severity: "stop" as const,
        place: { span },
        message: "the eyes have no column of techniques",
        expected: "by: and the column that says how the eyes were operated on",
      };
      return { ok: false, problems: [problem] };
    },
  };
}

function answer(parts: SuitabilityParts): Worked {
  const { record, buckles, otherOnlyFor } = parts;
  const eyes = eyeCount(record);
  const picks = new PickBook();
  const table = suitabilityTable(parts, picks);
  picks.add("buckle:for", "buckle, only features for, failed", buckles?.onlyFor.failedEyes ?? []);
  picks.add("buckle:against", "buckle, feature against, failed", buckles?.against.failedEyes ?? []);
  picks.add("other:for", "no buckle, only features for, failed", otherOnlyFor.failedEyes);
  const leftOut = leftOutOf(record);
  return {
    answered: {
      answer: {
        question: "suitability",
        asks: "Was it the operation, or the choice of it?",
        sentence: suitabilitySentence(parts),
        brief: suitabilityBrief(parts),
        table,
        ...(eyes === 0
          ? {}
          : { chart: { draw: "sectioned rates", rates: drawnSuitability(parts) } }),
        cautions: cautionsOf(parts, leftOut),
        unit: "eyes",
        used: eyes,
        leftOut,
        figures: suitabilityFigures(parts),
      },
      picks: picks.picks,
      record: describedRecord(parts),
    },
  };
}

function cautionsOf(parts: SuitabilityParts, leftOut: readonly LeftOut[]): Caution[] {
  const { record, grouping, strata } = parts;
  const rows = strata.flatMap(({ label, groups }) =>
    groups.map((rate) => ({
      label: `${rate.label} (${label})`,
      failed: rate.failed,
      eyes: rate.eyes + rate.notKnown,
    })),
  );
  const notKnown = strata.reduce((sum, { all }) => sum + all.notKnown, 0);
  return [
    ...notARecommendation(),
    ...smallNumbers(rows),
    ...techniquesChosen([...grouping.by, "technique"]),
    ...comparingPeople(grouping.by),
    ...manyNotKnown(record, notKnown, eyeCount(record)),
    ...whatWasAssumed(record, grouping.by),
    ...manyLeftOut(leftOut, eyeCount(record)),
    ...pairedEyes(record, clusteredIntervals),
  ];
}

function describedRecord({ record, suitability: byEye }: SuitabilityParts) {
  return pickRecordAlso(record, {
    headings: ["for a buckle", "against", "not recorded"],
    texts: (eye) => {
      const own = byEye[eye];
      return [own?.for, own?.against, own?.silent].map((names) => names?.join(", ") || "–");
    },
  });
}
