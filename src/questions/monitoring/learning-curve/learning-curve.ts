import type { GivenArguments } from "../../../formula/vocabulary.ts";
import type { EyeRecord } from "../../../outcomes/eye-record.ts";
import type { Caution, LeftOut } from "../../answer.ts";
import { PickBook, pickRecord } from "../../answering/answered-eyes.ts";
import { manyLeftOut, pairedEyes, smallNumbers, whatWasAssumed } from "../../answering/cautions.ts";
import { factorsParameter } from "../../people/expectation.ts";
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
import { type Difficulty, type DifficultyFound, difficultyOfEyes } from "./difficulty-of-eyes.ts";
import { drawnLearning } from "./learning-chart.ts";
import { type LearningDesign, learningDesign, learningParameters } from "./learning-design.ts";
import { bySupervision, contextOf, type LearningParts, thirdsOf } from "./learning-parts.ts";
import { learningBrief, learningSentence } from "./learning-sentence.ts";
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
  const hard = difficultyOfEyes(found.judged, named.person, given);
  if ("problems" in hard) return hard;
  const { difficulty } = hard;
  const parts = partsOf(found.judged, named.person, { design: designed.design, difficulty });
  return answer(parts, { record, hard });
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
  { record, hard }: { readonly record: EyeRecord; readonly hard: DifficultyFound },
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
        brief: learningBrief(parts),
        table: learningTable(parts, picks),
        ...(eyes.length === 0
          ? {}
          : { chart: { draw: "monitoring" as const, monitoring: drawnLearning(parts, picks) } }),
        cautions: cautionsOf(parts, { leftOut, hard }),
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
  { leftOut, hard }: { readonly leftOut: readonly LeftOut[]; readonly hard: DifficultyFound },
): Caution[] {
  const size = { label: person.code, eyes: eyes.length, failed: failed.filter(Boolean).length };
  return [
    aboutPeople(),
    notALicence(),
    ...smallNumbers([size]),
    severalLooks(),
    ...hard.cautions,
    ...tooRecentToJudge(judged),
    ...peopleNotKnown(judged),
    ...inOrderOfFile(isByDay),
    ...whatWasAssumed(ownRecord(judged), hard.names),
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
