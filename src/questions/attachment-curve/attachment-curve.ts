import type { GivenArguments, Word } from "../../formula/vocabulary.ts";
import { type EyeRecord, eyeCount } from "../../outcomes/eye-record.ts";
import { survivalAt } from "../../statistics/survival-at.ts";
import type { SurvivalLimits } from "../../statistics/survival-limits.ts";
import { leftOutOf, PickBook, pickRecord } from "../answering/answered-eyes.ts";
import { asked } from "../answering/asked.ts";
import {
  clusteredIntervals,
  comparingPeople,
  fewRemain,
  manyLeftOut,
  pairedEyes,
  smallNumbers,
  techniquesChosen,
  undecidedCensored,
  whatWasAssumed,
} from "../answering/cautions.ts";
import { splitOf } from "../answering/grouping.ts";
import { landmarksGiven, landmarksParameter } from "../answering/landmarks.ts";
import { timeIn } from "../answering/time-words.ts";
import {
  byParameter,
  eyesParameter,
  question,
  textGiven,
  valueGiven,
  type Worked,
  withinParameter,
} from "../question.ts";
import {
  type CurveParts,
  curveBrief,
  curveFigures,
  curveSentence,
  curveTable,
} from "./attachment-curve-parts.ts";
import { curveDrawing } from "./curve-drawing.ts";
import { curveOfGroup, type GroupCurve } from "./curve-of-group.ts";
import { drawnGroups, notDrawn } from "./drawn-groups.ts";

const limitsOffered: readonly SurvivalLimits[] = ["log-log", "log", "plain"];

/**
 * When did it fail? Kaplan–Meier curves of eyes remaining attached, with Greenwood's error, limits
 * on the log-log scale unless asked otherwise, numbers at risk, and the eyes behind every step.
 */
export const attachmentCurve = question(
  {
    name: "attachment_curve",
    meaning: "Kaplan–Meier curves of eyes remaining attached, with numbers at risk",
    asks: "When did it fail?",
    example: "attachment_curve(eyes, by: technique)",
    parameters: [
      eyesParameter,
      byParameter,
      withinParameter,
      landmarksParameter("times at which the curve is read"),
      {
        name: "limits",
        meaning: "the scale of the 95% limits",
        takes: "value",
        kinds: ["text"],
        required: false,
        choices: limitsOffered,
        whenLeftOut: '"log-log"',
      },
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const of = asked(given, { times: true });
  if ("problems" in of) return of;
  const { record, grouping, window } = of;
  const limits = textGiven(given, "limits", "log-log" as SurvivalLimits);
  const options = {
    limits,
    ...(window === undefined ? {} : { until: window.length }),
  };
  const groups = grouping.groups.map((group) => curveOfGroup(record, group, options));
  const everyone = { label: "all eyes", eyes: Array.from(record.time, (_, eye) => eye) };
  const total = curveOfGroup(record, everyone, options);
  const until = window?.length ?? Math.max(0, ...record.time);
  const landmarks = landmarksGiven(given, record, { until });
  return answer({ record, grouping, groups, total, until, landmarks, limits });
}

function answer(parts: CurveParts): Worked {
  const { record, grouping, groups, total } = parts;
  const picks = new PickBook();
  const leftOut = leftOutOf(record);
  const rows = grouping.label === undefined ? [total] : [...groups, total];
  return {
    answered: {
      answer: {
        question: "attachment_curve",
        asks: "When did it fail?",
        sentence: curveSentence(parts),
        brief: curveBrief(parts),
        table: curveTable(parts, rows, picks),
        chart: {
          draw: "attachment curves",
          curves: {
            ...curveDrawing(record, drawnGroups(groups), { until: parts.until, picks }),
            ...splitOf(grouping),
          },
        },
        cautions: [
          ...smallNumbers(groups.map((group) => ({ ...group, eyes: group.eyes.length }))),
          ...fewRemain(drawnGroups(groups), parts.until),
          ...notDrawn(groups),
          ...techniquesChosen(grouping.by),
          ...comparingPeople(grouping.by),
          ...undecidedCensored(record),
          ...whatWasAssumed(record, grouping.by),
          ...manyLeftOut(leftOut, eyeCount(record)),
          ...pairedEyes(record, clusteredIntervals),
        ],
        unit: "eyes",
        used: eyeCount(record),
        leftOut,
        figures: curveFigures(parts),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
    words: [readAt(record, total)],
  };
}

/** `when.at(90 days)`: the share still attached then, all eyes together. */
function readAt(record: EyeRecord, total: GroupCurve): Word {
  return {
    name: "at",
    meaning: "the share still attached at a time, all eyes together",
    parameters: [
      {
        name: "time",
        meaning: "how long after the repair",
        takes: "value",
        kinds: ["duration"],
        required: true,
      },
    ],
    answers: "number",
    call: (given) => {
      const value = valueGiven(given, "time");
      const at =
        value?.kind === "duration" ? survivalAt(total.curve, timeIn(record.timeUnit, value)) : null;
      return {
        ok: true,
        value: at === null ? { kind: "missing" } : { kind: "number", number: at.estimate },
      };
    },
  };
}
