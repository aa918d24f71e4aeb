import type { GivenArguments } from "../../../formula/vocabulary.ts";
import type { EyeRecord } from "../../../outcomes/eye-record.ts";
import type { Problem } from "../../../problem/problem.ts";
import type { Caution, LeftOut } from "../../answer.ts";
import { PickBook, pickRecord } from "../../answering/answered-eyes.ts";
import { manyLeftOut, pairedEyes, smallNumbers, whatWasAssumed } from "../../answering/cautions.ts";
import { boundTerms } from "../../modelling/bound-term.ts";
import { factorsParameter, termNamesOf } from "../../people/expectation.ts";
import { expectedModelCautions } from "../../people/expected-model-cautions.ts";
import { judgedEyes, judgingParameters, notJudged, openable } from "../../people/judged-eyes.ts";
import {
  otherThingsChanged,
  peopleNotKnown,
  ratesAreOfPeople,
  severalLooks,
  tooRecentToJudge,
} from "../../people/people-cautions.ts";
import { eyesGiven, eyesParameter, question, valueGiven, type Worked } from "../../question.ts";
import { drawnChange } from "./change-chart.ts";
import { type ChangeParts, changeFigures, namedSides } from "./change-parts.ts";
import { changeSentence } from "./change-sentence.ts";
import { changeTable } from "./change-table.ts";
import { quartersOfSides } from "./quarters-of-sides.ts";
import { compareSides, expectedAfter, twoSides } from "./two-sides.ts";

/**
 * Did the change help? Failures among eyes operated on before a day and from it on: the difference with
 * Newcombe's interval and Fisher's exact test, a p-chart by quarter that is cut at the day, with a centre
 * on either side; with risk factors also the failures after it beside those that a logistic model of
 * the eyes before expects of them.
 */
export const beforeAfter = question(
  {
    name: "before_after",
    meaning: "failures before a day and from it on, with the difference",
    asks: "Did the change make a difference?",
    example: "before_after(eyes, on: 2025-01-01)",
    parameters: [
      eyesParameter,
      {
        name: "on",
        meaning: "the first day of what is new",
        takes: "value",
        kinds: ["day"],
        required: true,
        byNameOnly: true,
      },
      ...judgingParameters,
      {
        ...factorsParameter,
        name: "allowing_for",
        whenLeftOut: "none",
      },
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const on = valueGiven(given, "on");
  const day = on?.kind === "day" ? on.day : 0;
  const found = judgedEyes(record, given);
  const terms = boundTerms(record, given);
  const problems = [found, terms].flatMap((each) => ("problems" in each ? each.problems : []));
  if ("problems" in found || "problems" in terms) return { problems };
  const sides = twoSides(found.judged, day);
  if (sides === undefined) return { problems: [noDays(given)] };
  const { bound } = terms;
  const after =
    bound.length === 0 ? undefined : expectedAfter(sides, { kind: "model", terms: bound });
  if (after !== undefined && "problems" in after) return after;
  return answer(
    {
      judged: found.judged,
      day,
      sides,
      compared: compareSides(sides),
      quarters: quartersOfSides(found.judged, sides),
      adjusted: after?.expected,
      terms: termNamesOf(bound),
      names: bound.flatMap(({ names }) => names),
    },
    record,
  );
}

function answer(parts: ChangeParts, record: EyeRecord): Worked {
  const { judged, sides } = parts;
  const picks = new PickBook();
  const table = changeTable(parts, picks);
  const leftOut = [
    ...notJudged(judged, picks),
    ...openable(picks, "undated", {
      reason: "the day of operation is not recorded",
      eyes: sides.undated,
    }),
  ];
  const chart = drawnChange(parts, picks);
  return {
    answered: {
      answer: {
        question: "before_after",
        asks: "Did the change make a difference?",
        sentence: changeSentence(parts),
        table,
        ...(chart === undefined
          ? {}
          : { chart: { draw: "monitoring" as const, monitoring: chart } }),
        cautions: cautionsOf(parts, leftOut),
        unit: "eyes",
        used: sides.before.known.length + sides.after.known.length,
        leftOut,
        figures: changeFigures(parts),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function cautionsOf(parts: ChangeParts, leftOut: readonly LeftOut[]): Caution[] {
  const { judged, names, adjusted } = parts;
  const sizes = namedSides(parts).map(({ label, eyes, failed }) => ({
    label,
    eyes: eyes.known.length,
    failed: failed.length,
  }));
  return [
    otherThingsChanged(),
    ratesAreOfPeople(),
    ...smallNumbers(sizes),
    severalLooks(),
    ...expectedModelCautions([adjusted?.model], "the eyes before"),
    ...tooRecentToJudge(judged),
    ...peopleNotKnown(judged),
    ...whatWasAssumed(judged.record, names),
    ...manyLeftOut(leftOut, judged.known.length),
    ...pairedEyes(judged.record),
  ];
}

function noDays(given: GivenArguments): Problem {
  return {
    code: "no-days",
    severity: "stop",
    place: { span: given.span },
    message: "the file has no column for the day of operation, so there is no before and after",
    expected: "a column matched to operation_date",
  };
}
