import type { GivenArguments } from "../../formula/vocabulary.ts";
import { breaksByEye, inferiorHours } from "../../outcomes/clock-hours.ts";
import type { Caution, LeftOut } from "../answer.ts";
import { PickBook } from "../answering/answered-eyes.ts";
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
import { leftOutEyes } from "../answering/left-out-eyes.ts";
import { pickRecordAlso } from "../answering/pick-record-also.ts";
import {
  byParameter,
  eyesGiven,
  eyesParameter,
  question,
  textGiven,
  type Worked,
} from "../question.ts";
import { drawnRose, rosesNotDrawn } from "./clock-drawing.ts";
import { type ClockGroup, type ClockParts, clockParts } from "./clock-parts.ts";
import { clockBrief, clockSentence } from "./clock-sentence.ts";
import { clockFigures, clockTable } from "./clock-table.ts";
import { countedInEach } from "./counted-in-each.ts";

/**
 * Where were the breaks, and which failed? Eyes by the clock hours and quadrants of their breaks at
 * the primary repair, temporal and nasal told for each eye, with the failures among them; and eyes
 * with an inferior break beside the others; for each group where the eyes are split. An eye with
 * several breaks counts in each place.
 */
export const clockHours = question(
  {
    name: "clock_hours",
    meaning: "breaks and failures around the clock, by quadrant, and inferior breaks",
    asks: "Where were the breaks?",
    example: 'clock_hours(eyes, inferior: "4 to 8")',
    parameters: [
      eyesParameter,
      byParameter,
      {
        name: "inferior",
        meaning: "the hours of an inferior break, both ends among them",
        takes: "value",
        kinds: ["text"],
        required: false,
        choices: inferiorHours.map(({ name }) => name),
        whenLeftOut: `"${inferiorHours[0].name}"`,
      },
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const grouped = groupEyes(record, given.rows.get("by"));
  if ("problems" in grouped) return grouped;
  const { grouping } = grouped;
  const name = textGiven<string>(given, "inferior", inferiorHours[0].name);
  const inferior = inferiorHours.find((each) => each.name === name) ?? inferiorHours[0];
  return answer(clockParts({ record, breaks: breaksByEye(record), inferior, grouping }));
}

function answer(parts: ClockParts): Worked {
  const { record, breaks, total } = parts;
  const placed = total.eyes.length;
  const picks = new PickBook();
  const table = clockTable(parts, picks);
  const leftOut = leftOutEyes(record, breaks.without, picks);
  return {
    answered: {
      answer: {
        question: "clock_hours",
        asks: "Where were the breaks?",
        sentence: clockSentence(parts),
        brief: clockBrief(parts),
        table,
        ...(placed === 0 ? {} : { chart: { draw: "clock rose", rose: drawnRose(parts) } }),
        cautions: cautionsOf(parts, leftOut),
        unit: "eyes",
        used: placed,
        leftOut,
        figures: clockFigures(parts),
      },
      picks: picks.picks,
      record: describedRecord(parts),
    },
  };
}

function cautionsOf(parts: ClockParts, leftOut: readonly LeftOut[]): Caution[] {
  const { record, grouping, total, groups } = parts;
  const placed = total.eyes.length;
  const notKnown = total.withInferior.rate.notKnown + total.withoutInferior.rate.notKnown;
  return [
    ...countedInEach(total.eyes.filter(({ hours }) => hours.length > 1).length),
    ...smallNumbers(groups.length === 0 ? comparedIn(total) : groups.map(failedOf)),
    ...techniquesChosen(grouping.by),
    ...comparingPeople(grouping.by),
    ...rosesNotDrawn(parts),
    ...manyNotKnown(record, notKnown, placed),
    ...whatWasAssumed(record, grouping.by),
    ...manyLeftOut(leftOut, placed),
    ...pairedEyes(record, clusteredIntervals),
  ];
}

function comparedIn({ withInferior, withoutInferior }: ClockGroup) {
  return [withInferior, withoutInferior].map(({ label, eyes, rate }) => ({
    label,
    failed: rate.failed,
    eyes: eyes.length,
  }));
}

/** A group counts by the eyes and failures of its own. */
function failedOf({ label, eyes, withInferior, withoutInferior }: ClockGroup) {
  return {
    label,
    eyes: eyes.length,
    failed: withInferior.rate.failed + withoutInferior.rate.failed,
  };
}

function describedRecord({ record, breaks }: ClockParts) {
  const byEye = new Map(breaks.eyes.map(({ eye, hours }) => [eye, hours]));
  return pickRecordAlso(record, {
    headings: ["breaks at (o'clock)"],
    texts: (eye) => [byEye.get(eye)?.join(", ") ?? "–"],
  });
}
