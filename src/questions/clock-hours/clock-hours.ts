import type { ClockRose } from "../../charts/clock-rose.ts";
import type { GivenArguments } from "../../formula/vocabulary.ts";
import { breaksByEye, inferiorHours, type Side } from "../../outcomes/clock-hours.ts";
import type { Caution, LeftOut } from "../answer.ts";
import { PickBook } from "../answering/answered-eyes.ts";
import {
  clusteredIntervals,
  manyLeftOut,
  manyNotKnown,
  pairedEyes,
  smallNumbers,
  whatWasAssumed,
} from "../answering/cautions.ts";
import { leftOutEyes } from "../answering/left-out-eyes.ts";
import { pickRecordAlso } from "../answering/pick-record-also.ts";
import { eyesGiven, eyesParameter, question, textGiven, type Worked } from "../question.ts";
import { type ClockParts, clockParts, ofSide } from "./clock-parts.ts";
import { clockBrief, clockSentence } from "./clock-sentence.ts";
import { clockFigures, clockTable } from "./clock-table.ts";
import { countedInEach } from "./counted-in-each.ts";

/**
 * Where were the breaks, and which failed? Eyes by the clock hours and quadrants of their breaks at
 * the primary repair, temporal and nasal told for each eye, with the failures among them; and eyes
 * with an inferior break beside the others. An eye with several breaks counts in each place.
 */
export const clockHours = question(
  {
    name: "clock_hours",
    meaning: "breaks and failures around the clock, by quadrant, and inferior breaks",
    asks: "Where were the breaks?",
    example: 'clock_hours(eyes, inferior: "4 to 8")',
    parameters: [
      eyesParameter,
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
  const name = textGiven<string>(given, "inferior", inferiorHours[0].name);
  const inferior = inferiorHours.find((each) => each.name === name) ?? inferiorHours[0];
  return answer(clockParts(record, breaksByEye(record), inferior));
}

function answer(parts: ClockParts): Worked {
  const { record, breaks } = parts;
  const placed = breaks.eyes.length;
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
        ...(placed === 0 ? {} : { chart: { draw: "clock rose", rose: drawn(parts) } }),
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
  const { record, breaks, withInferior, withoutInferior } = parts;
  const placed = breaks.eyes.length;
  const notKnown = withInferior.rate.notKnown + withoutInferior.rate.notKnown;
  const compared = [withInferior, withoutInferior].map(({ label, eyes, rate }) => ({
    label,
    failed: rate.failed,
    eyes: eyes.length,
  }));
  return [
    ...countedInEach(breaks.eyes.filter(({ hours }) => hours.length > 1).length),
    ...smallNumbers(compared),
    ...manyNotKnown(notKnown, placed),
    ...whatWasAssumed(record, []),
    ...manyLeftOut(leftOut, placed),
    ...pairedEyes(record, clusteredIntervals),
  ];
}

/** The rows of the table lead to the same eyes, under the same keys. */
function drawn({ byHour, breaks, inferior }: ClockParts): ClockRose {
  const sides: readonly Side[] = ["right", "left"];
  return {
    counted: "failed",
    inferior,
    eyes: sides.map((side) => ({
      side,
      total: breaks.eyes.filter((each) => each.side === side).length,
      hours: byHour.map((row) => {
        const { eyes, failed } = ofSide(row, side);
        return {
          hour: row.hour,
          eyes: eyes.length,
          failed: failed.length,
          ...(eyes.length === 0 ? {} : { pick: `h${row.hour}:${side}` }),
          ...(failed.length === 0 ? {} : { failedPick: `h${row.hour}:${side} failed` }),
        };
      }),
    })),
  };
}

function describedRecord({ record, breaks }: ClockParts) {
  const byEye = new Map(breaks.eyes.map(({ eye, hours }) => [eye, hours]));
  return pickRecordAlso(record, {
    headings: ["breaks at (o'clock)"],
    texts: (eye) => [byEye.get(eye)?.join(", ") ?? "–"],
  });
}
