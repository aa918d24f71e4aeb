import type { GivenArguments, Parameter } from "../../../formula/vocabulary.ts";
import type { EyeRecord } from "../../../outcomes/eye-record.ts";
import type { LeftOut } from "../../answer.ts";
import { PickBook, pickRecord } from "../../answering/answered-eyes.ts";
import { manyLeftOut, pairedEyes, smallNumbers, whatWasAssumed } from "../../answering/cautions.ts";
import { type Group, groupEyes } from "../../answering/grouping.ts";
import {
  byParameter,
  eyesGiven,
  eyesParameter,
  question,
  textGiven,
  type Worked,
} from "../../question.ts";
import { cannotExpect } from "../cannot-expect.ts";
import { ratioLimits } from "../exact-ratio.ts";
import {
  type Expectation,
  expectationColumns,
  expectationGiven,
  expectationParameters,
  factorsParameter,
} from "../expectation.ts";
import { expectedModelCautions } from "../expected-model-cautions.ts";
import { expectedRisks, type RisksOf } from "../expected-risks.ts";
import {
  type JudgedEyes,
  judgedEyes,
  judgingParameters,
  notJudged,
  openable,
  ownRecord,
} from "../judged-eyes.ts";
import {
  aboutPeople,
  cannotBeExpected,
  expectedFrom,
  namesHidden,
  noDifferenceShown,
  peopleNotKnown,
  severalLooks,
  severalPeople,
  shrunkenLimits,
  tooRecentToJudge,
} from "../people-cautions.ts";
import { mostUnits, personGroups } from "../person-groups.ts";
import { areNamesHiddenIn, namesParameter } from "../shown-names.ts";
import { comparisonFigures } from "./observed-expected-figures.ts";
import {
  type ComparisonParts,
  drawnRatios,
  standardRate,
  withoutNames,
} from "./observed-expected-parts.ts";
import { comparisonBrief, comparisonSentence } from "./observed-expected-sentence.ts";
import { comparisonTable } from "./observed-expected-table.ts";
import { peopleResults } from "./person-result.ts";

export const mineParameter: Parameter = {
  name: "mine",
  meaning: "show this person alone, beside the unit without them",
  takes: "value",
  kinds: ["text", "number"],
  required: false,
  whenLeftOut: "all of them",
  byNameOnly: true,
};

/**
 * More failures than expected? Observed failures of each person beside those expected for the same
 * eyes: from a logistic model on the factors given, or the plain rate, of everybody else's eyes (never
 * of the person judged), or from a published risk. The ratio has exact limits by the risk of each eye
 * (the Poisson-binomial test turned round) or Poisson limits; beside it the case mix as the mean
 * expected risk, the rate adjusted by it, the raw rate drawn towards the mean (beta-binomial, Morris
 * 1983) and the probability of a true rate among the worst quarter. Names are hidden unless asked.
 */
export const observedExpected = question(
  {
    name: "observed_expected",
    meaning: "each person's failures beside those expected for the same eyes",
    asks: "More failures than expected?",
    example: "observed_expected(eyes, risk_stratum, by: surgeon)",
    parameters: [
      eyesParameter,
      { ...byParameter, required: true, byNameOnly: true, meaning: "whose eyes they are: surgeon" },
      ...expectationParameters,
      ...judgingParameters,
      {
        name: "limits",
        meaning: "how the 95% limits of the ratio are had",
        takes: "value",
        kinds: ["text"],
        required: false,
        choices: ratioLimits,
        whenLeftOut: `"${ratioLimits[0]}"`,
        byNameOnly: true,
      },
      mineParameter,
      namesParameter,
      factorsParameter,
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const grouped = groupEyes(record, given.rows.get("by"), mostUnits);
  const found = judgedEyes(record, given);
  const wanted = expectationGiven(record, given);
  const problems = [grouped, found, wanted].flatMap((each) =>
    "problems" in each ? each.problems : [],
  );
  if ("problems" in grouped || "problems" in found || "problems" in wanted) return { problems };
  const people = personGroups(grouped.grouping, given);
  if ("problems" in people) return people;
  const risks = expectedRisks(found.judged, wanted.expectation);
  if ("problems" in risks) return risks;
  const parts = partsOf({ ...people, judged: found.judged }, wanted.expectation, {
    risksOf: risks.risksOf,
    given,
  });
  const hasNone = parts.people.every(({ cannot }) => cannot !== undefined);
  const why = parts.people[0]?.cannot;
  if (hasNone && why !== undefined) return { problems: [cannotExpect(why, given)] };
  return answer(parts, record);
}

function partsOf(
  about: Pick<ComparisonParts, "judged" | "label" | "mine" | "silent"> & {
    readonly groups: readonly Group[];
  },
  expectation: Expectation,
  { risksOf, given }: { readonly risksOf: RisksOf; readonly given: GivenArguments },
): ComparisonParts {
  const standard = standardRate(about.judged, expectation);
  const limits = textGiven(given, "limits", ratioLimits[0]);
  const { people, model } = peopleResults(about.groups, { ...about, risksOf, standard, limits });
  const { mine } = about;
  const areNamesHidden = mine === undefined && areNamesHiddenIn(given);
  const own = mine === undefined ? people : people.filter(({ label }) => label === mine);
  const shown = areNamesHidden ? withoutNames(own) : own;
  const all = people.length;
  return { ...about, expectation, standard, people: shown, all, areNamesHidden, model, limits };
}

function answer(parts: ComparisonParts, record: EyeRecord): Worked {
  const picks = new PickBook();
  const table = comparisonTable(parts, picks);
  const { judged, silent, label } = parts;
  const shown = shownEyes(parts);
  const reason = `${label} not recorded`;
  const open = parts.areNamesHidden ? new PickBook() : picks;
  const found = [
    ...notJudged(shown, open),
    ...(shown === judged ? openable(open, "nobody", { reason, eyes: silent }) : []),
  ];
  const leftOut = parts.areNamesHidden ? withoutPicks(found) : found;
  return {
    answered: {
      answer: {
        question: "observed_expected",
        asks: "More failures than expected?",
        sentence: comparisonSentence(parts, picks),
        brief: comparisonBrief(parts),
        table,
        chart: { draw: "effects", effects: drawnRatios(parts) },
        cautions: cautionsOf(parts, leftOut),
        unit: "eyes",
        used: shown.known.length,
        leftOut,
        figures: comparisonFigures(parts),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

/** Where names are hidden only the counts are told, with no way to the eyes. */
function withoutPicks(leftOut: readonly LeftOut[]): LeftOut[] {
  return leftOut.map(({ reason, count }) => ({ reason, count }));
}

/** Of one person asked for alone, only their own eyes can be opened. */
function shownEyes({ judged, mine, people }: ComparisonParts): JudgedEyes {
  return mine === undefined ? judged : (people[0]?.judged ?? judged);
}

function cautionsOf(parts: ComparisonParts, leftOut: Parameters<typeof manyLeftOut>[0]) {
  const { people, expectation, model, all } = parts;
  const judged = shownEyes(parts);
  const names = expectationColumns(expectation);
  const cannot = people.flatMap(({ label, cannot: why }) =>
    why === undefined ? [] : [{ label, why }],
  );
  return [
    aboutPeople(),
    ...smallNumbers(
      people.map(({ label, judged: own, failedEyes }) => ({
        label,
        failed: failedEyes.length,
        eyes: own.known.length,
      })),
    ),
    ...severalPeople(people.length),
    ...(parts.areNamesHidden ? [namesHidden()] : []),
    severalLooks(),
    ...expectedFrom(expectation),
    ...expectedModelCautions(people.map(({ risks }) => risks?.model)),
    ...cannotBeExpected(cannot),
    ...(model !== null && model.intraclass === 0 && all > 1 ? [noDifferenceShown()] : []),
    ...(people.some(({ shrunken }) => shrunken?.limits) ? [shrunkenLimits()] : []),
    ...tooRecentToJudge(judged),
    ...peopleNotKnown(judged),
    ...whatWasAssumed(ownRecord(judged), names),
    ...manyLeftOut(leftOut, judged.known.length),
    ...pairedEyes(ownRecord(judged)),
  ];
}
