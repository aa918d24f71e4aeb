import { columnNamed } from "../../../cases/table.ts";
import type { GivenArguments } from "../../../formula/vocabulary.ts";
import type { EyeRecord } from "../../../outcomes/eye-record.ts";
import type { Problem } from "../../../problem/problem.ts";
import type { Caution, LeftOut } from "../../answer.ts";
import { PickBook, pickRecord } from "../../answering/answered-eyes.ts";
import { manyLeftOut, pairedEyes, smallNumbers, whatWasAssumed } from "../../answering/cautions.ts";
import { boundTerms } from "../../modelling/bound-term.ts";
import { factorsParameter, termNamesOf } from "../../people/expectation.ts";
import { expectedRisks } from "../../people/expected-risks.ts";
import { inOrder } from "../../people/in-order.ts";
import {
  among,
  type JudgedEyes,
  judgedEyes,
  judgingParameters,
  notJudged,
  openable,
  ownRecord,
} from "../../people/judged-eyes.ts";
import { type OnePerson, onePerson, personParameter } from "../../people/one-person.ts";
import {
  aboutPeople,
  inOrderOfFile,
  peopleNotKnown,
  severalLooks,
  tooRecentToJudge,
} from "../../people/people-cautions.ts";
import { eyesGiven, eyesParameter, question, type Worked } from "../../question.ts";
import { drawnLearning } from "./learning-chart.ts";
import { type LearningDesign, learningDesign, learningParameters } from "./learning-design.ts";
import {
  bySupervision,
  contextOf,
  type Difficulty,
  type LearningParts,
  thirdsOf,
} from "./learning-parts.ts";
import { learningSentence } from "./learning-sentence.ts";
import { learningFigures, learningTable } from "./learning-table.ts";
import { threeWay } from "./three-way.ts";

/**
 * Is the level reached? A trainee's operations in order against rates agreed beforehand: the rate so
 * far and of the last operations, and the learning-curve CUSUM (Biau et al. 2008) with its mirror
 * image, whose limits are searched for from the stated probability of a wrong call. The answer is one
 * of three: reached, not reached, or cannot tell yet and how many more are needed. Beside it the rates
 * by supervision, how hard the eyes were over time, and those who train, several together.
 */
export const learningCurve = question(
  {
    name: "learning_curve",
    meaning: "a trainee's operations in order against a level agreed beforehand",
    asks: "Has the trainee reached the level?",
    example:
      'learning_curve(eyes, trainee: "T2", acceptable: 13%, unacceptable: 26%, source: "agreed by the unit")',
    parameters: [
      eyesParameter,
      personParameter("trainee", "the code under which the trainee operates"),
      ...learningParameters,
      ...judgingParameters,
      {
        ...factorsParameter,
        meaning: "risk factors by which the difficulty of an eye is told, one after the other",
        whenLeftOut: "the number of recorded risk factors",
      },
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const found = judgedEyes(record, given);
  const designed = learningDesign(given);
  const named = onePerson(record, given, "trainee");
  const problems = [found, designed, named].flatMap((each) =>
    "problems" in each ? each.problems : [],
  );
  if ("problems" in found || "problems" in designed || "problems" in named) return { problems };
  const hard = difficultyOf(found.judged, named.person, given);
  if ("problems" in hard) return hard;
  return answer(
    partsOf(found.judged, named.person, { design: designed.design, difficulty: hard.difficulty }),
    { record, terms: hard.terms },
  );
}

/** The risk that others' eyes tell, or the number of recorded factors; undefined where untold. */
function difficultyOf(
  judged: JudgedEyes,
  person: OnePerson,
  given: GivenArguments,
):
  | { readonly difficulty: Difficulty | undefined; readonly terms: readonly string[] }
  | { readonly problems: readonly Problem[] } {
  const found = boundTerms(judged.record, given);
  if ("problems" in found) return found;
  const { bound: terms } = found;
  if (terms.length === 0)
    return { difficulty: recordedFactors(judged.record), terms: ["risk_factors"] };
  const told = expectedRisks(judged, { kind: "model", terms });
  if ("problems" in told) return told;
  const risks = told.risksOf(among(judged, person.eyes).known);
  if ("cannot" in risks) return { difficulty: undefined, terms: [] };
  const riskOf = new Map(risks.eyes.map((eye, i) => [eye, risks.risks[i] ?? 0]));
  const label = `mean risk by ${termNamesOf(terms)}`;
  return {
    difficulty: { label, isShare: true, of: (eye) => riskOf.get(eye) ?? null },
    terms: terms.flatMap(({ names }) => names),
  };
}

function recordedFactors(record: EyeRecord): Difficulty | undefined {
  const values = columnNamed(record.table, "risk_factors")?.values;
  if (values === undefined) return undefined;
  return {
    label: "recorded risk factors, mean",
    isShare: false,
    of: (eye) => {
      const value = values[eye];
      return typeof value === "number" ? value : null;
    },
  };
}

function partsOf(
  all: JudgedEyes,
  person: OnePerson,
  { design, difficulty }: { design: LearningDesign; difficulty: Difficulty | undefined },
): LearningParts {
  const judged = among(all, person.eyes);
  const { eyes, days, isByDay } = inOrder(all.record, judged.known);
  const failed = eyes.map(judged.hasFailed);
  return {
    person,
    judged,
    eyes,
    failed,
    days,
    isByDay,
    design,
    found: threeWay(failed, design),
    bySupervision: bySupervision(judged),
    thirds: thirdsOf(eyes, judged.hasFailed, difficulty),
    difficulty,
    context: contextOf(all, person),
  };
}

function answer(
  parts: LearningParts,
  { record, terms }: { readonly record: EyeRecord; readonly terms: readonly string[] },
): Worked {
  const { judged, eyes } = parts;
  const picks = new PickBook();
  const placed = new Set(eyes);
  const undated = judged.known.filter((eye) => !placed.has(eye));
  const reason = "the day of operation is not recorded";
  const leftOut = [
    ...notJudged(judged, picks),
    ...openable(picks, "undated", { reason, eyes: undated }),
  ];
  return {
    answered: {
      answer: {
        question: "learning_curve",
        asks: "Has the trainee reached the level?",
        sentence: learningSentence(parts, picks),
        table: learningTable(parts, picks),
        ...(eyes.length === 0
          ? {}
          : { chart: { draw: "monitoring" as const, monitoring: drawnLearning(parts, picks) } }),
        cautions: cautionsOf(parts, { leftOut, terms }),
        unit: "eyes",
        used: eyes.length,
        leftOut,
        figures: learningFigures(parts),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function cautionsOf(
  { judged, eyes, failed, person, isByDay }: LearningParts,
  { leftOut, terms }: { readonly leftOut: readonly LeftOut[]; readonly terms: readonly string[] },
): Caution[] {
  const size = { label: person.code, eyes: eyes.length, failed: failed.filter(Boolean).length };
  return [
    aboutPeople(),
    notALicence(),
    ...smallNumbers([size]),
    severalLooks(),
    ...tooRecentToJudge(judged),
    ...peopleNotKnown(judged),
    ...inOrderOfFile(isByDay),
    ...whatWasAssumed(ownRecord(judged), terms),
    ...manyLeftOut(leftOut, eyes.length),
    ...pairedEyes(ownRecord(judged)),
  ];
}

function notALicence(): Caution {
  return {
    code: "not-a-licence",
    text: "A level reached in these eyes is no licence to operate alone, and a level not reached is no verdict on a person: the trainer's judgement of what was seen in theatre comes first. Who chose the eyes, and who took over, is not in the record.",
  };
}
