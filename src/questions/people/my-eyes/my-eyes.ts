import type { GivenArguments } from "../../../formula/vocabulary.ts";
import type { EyeRecord } from "../../../outcomes/eye-record.ts";
import type { Caution } from "../../answer.ts";
import { PickBook, pickRecord } from "../../answering/answered-eyes.ts";
import {
  manyLeftOut,
  pairedEyes,
  smallNumbers,
  techniquesChosen,
  whatWasAssumed,
} from "../../answering/cautions.ts";
import { eyesGiven, eyesParameter, question, type Worked } from "../../question.ts";
import { ratioLimits } from "../exact-ratio.ts";
import {
  expectationColumns,
  expectationGiven,
  expectationParameters,
  factorsParameter,
} from "../expectation.ts";
import { expectedModelCautions } from "../expected-model-cautions.ts";
import { expectedRisks } from "../expected-risks.ts";
import { among, judgedEyes, judgingParameters, notJudged, ownRecord } from "../judged-eyes.ts";
import { standardRate } from "../observed-expected/observed-expected-parts.ts";
import { ownResult } from "../observed-expected/person-result.ts";
import { onePerson, othersAreOne, surgeonParameter } from "../one-person.ts";
import {
  aboutPeople,
  expectedFrom,
  keptBack,
  peopleNotKnown,
  severalLooks,
  tooRecentToJudge,
} from "../people-cautions.ts";
import { comparedStrata } from "./compared-strata.ts";
import { eyesToReview } from "./eyes-to-review.ts";
import { ownBrief } from "./my-eyes-brief.ts";
import { drawnStrata, type OwnParts, ownFigures } from "./my-eyes-parts.ts";
import { ownSentence } from "./my-eyes-sentence.ts";
import { ownTable } from "./my-eyes-table.ts";

/**
 * How have my own eyes done? For one surgeon: how many outcomes are known and what those not known could
 * make of the rate, said first; the rate beside that of the unit without them, over all eyes, by
 * technique and by stratum of recorded risk (difference with Newcombe's interval); failures beside
 * those expected (exact); and the eyes to look at again. Nothing shows one other surgeon's results.
 */
export const myEyes = question(
  {
    name: "my_eyes",
    meaning:
      "one surgeon's own eyes: what is known, beside the unit without them, which to look at again",
    asks: "How have my own eyes done?",
    example: 'my_eyes(eyes, risk_stratum, surgeon: "A")',
    parameters: [
      eyesParameter,
      surgeonParameter,
      ...expectationParameters,
      ...judgingParameters,
      factorsParameter,
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const found = judgedEyes(record, given);
  const wanted = expectationGiven(record, given);
  const named = onePerson(record, given);
  const problems = [found, wanted, named].flatMap((each) =>
    "problems" in each ? each.problems : [],
  );
  if ("problems" in found || "problems" in wanted || "problems" in named) return { problems };
  const { person } = named;
  const { expectation } = wanted;
  const alone = othersAreOne(person, given.values.get("surgeon")?.span ?? given.span);
  if (alone.length > 0) return { problems: alone };
  const risks = expectedRisks(found.judged, expectation);
  if ("problems" in risks) return risks;
  const judged = among(found.judged, person.eyes);
  const standard = standardRate(found.judged, expectation);
  const about = { risksOf: risks.risksOf, standard, limits: ratioLimits[0] };
  return answer(
    {
      person,
      judged,
      strata: comparedStrata(found.judged, person),
      review: eyesToReview(judged),
      result: ownResult(person.code, judged, about),
      expectation,
      standard,
    },
    record,
  );
}

function answer(parts: OwnParts, record: EyeRecord): Worked {
  const { judged } = parts;
  const picks = new PickBook();
  const leftOut = notJudged(judged, picks);
  return {
    answered: {
      answer: {
        question: "my_eyes",
        asks: "How have my own eyes done?",
        sentence: ownSentence(parts),
        brief: ownBrief(parts),
        table: ownTable(parts, picks),
        ...(judged.known.length === 0
          ? {}
          : { chart: { draw: "sectioned rates" as const, rates: drawnStrata(parts) } }),
        cautions: cautionsOf(parts, leftOut),
        unit: "eyes",
        used: judged.known.length,
        leftOut,
        figures: ownFigures(parts),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function cautionsOf(parts: OwnParts, leftOut: ReturnType<typeof notJudged>): Caution[] {
  const { judged, person, result, expectation, strata } = parts;
  const kept = strata.filter(({ others }) => others === undefined).length;
  const size = { label: person.code, failed: result.failedEyes.length, eyes: judged.known.length };
  return [
    ...peopleNotKnown(judged),
    aboutPeople(),
    ...smallNumbers([size]),
    severalLooks(),
    ...tooRecentToJudge(judged),
    ...expectedFrom(expectation),
    ...expectedModelCautions([result.risks?.model]),
    ...techniquesChosen(["technique"]),
    ...keptBack(kept),
    ...whatWasAssumed(ownRecord(judged), ["risk_stratum", ...expectationColumns(expectation)]),
    ...manyLeftOut(leftOut, judged.known.length),
    ...pairedEyes(ownRecord(judged)),
  ];
}
