import type { GivenArguments, Parameter } from "../../../formula/vocabulary.ts";
import type { EyeRecord } from "../../../outcomes/eye-record.ts";
import type { Problem } from "../../../problem/problem.ts";
import type { LeftOut } from "../../answer.ts";
import { PickBook, pickRecord } from "../../answering/answered-eyes.ts";
import { manyLeftOut, pairedEyes, smallNumbers, whatWasAssumed } from "../../answering/cautions.ts";
import { groupEyes } from "../../answering/grouping.ts";
import {
  byParameter,
  eyesGiven,
  eyesParameter,
  numberGiven,
  question,
  textGiven,
  valueGiven,
  type Worked,
} from "../../question.ts";
import {
  type Expectation,
  expectationColumns,
  expectationGiven,
  expectationParameters,
  factorsParameter,
} from "../expectation.ts";
import { expectedModelCautions } from "../expected-model-cautions.ts";
import { expectedRisks } from "../expected-risks.ts";
import { type JudgedEyes, judgedEyes, judgingParameters, notJudged } from "../judged-eyes.ts";
import { mineParameter } from "../observed-expected/observed-expected.ts";
import {
  aboutPeople,
  cannotBeExpected,
  expectedFrom,
  namesHidden,
  othersTogether,
  peopleNotKnown,
  severalLooks,
  severalPeople,
  tooRecentToJudge,
} from "../people-cautions.ts";
import { mostUnits, type PersonGroups, personGroups } from "../person-groups.ts";
import { areNamesHiddenIn, namesParameter } from "../shown-names.ts";
import { drawnFunnel, type FunnelParts, funnelFigures } from "./funnel-parts.ts";
import { funnelBrief, funnelSentence } from "./funnel-sentence.ts";
import { funnelTable } from "./funnel-table.ts";
import { type FunnelDesign, funnelLimitKinds, funnelUnits } from "./funnel-units.ts";
import { othersStandTogether, ownAndOthers, shownUnits } from "./shown-units.ts";

/**
 * Does anyone stand out? Rates over the number of eyes around a target, with exact binomial limits at
 * 95% and 99.8%, interpolated (Spiegelhalter, Statistics in Medicine 2005;24:1185); with risk factors
 * or an expected risk, observed over expected around 1 with Poisson limits likewise. Over-dispersion
 * is measured (winsorised) and said, and widens the limits where asked. Names are hidden unless asked.
 */
export const funnel = question(
  {
    name: "funnel",
    meaning: "each person's rate over the number of their eyes, within limits of chance",
    asks: "Does anyone stand out by more than chance?",
    example: 'funnel(eyes, by: surgeon, target: 13%, source: "agreed by the unit", mine: "A")',
    parameters: [
      eyesParameter,
      { ...byParameter, required: true, byNameOnly: true, meaning: "whose eyes they are: surgeon" },
      {
        name: "target",
        meaning: "the failure rate to stand around",
        takes: "value",
        kinds: ["number"],
        required: false,
        whenLeftOut: "the rate of all together",
        byNameOnly: true,
      },
      namesParameter,
      mineParameterOf("highlight this person, by code"),
      {
        name: "limits",
        meaning: "exact, or widened where people differ more than chance explains",
        takes: "value",
        kinds: ["text"],
        required: false,
        choices: funnelLimitKinds,
        whenLeftOut: `"${funnelLimitKinds[0]}"`,
        byNameOnly: true,
      },
      ...expectationParameters,
      ...judgingParameters,
      factorsParameter,
    ],
  },
  work,
);

function mineParameterOf(meaning: string): Parameter {
  return { ...mineParameter, meaning, whenLeftOut: "nobody" };
}

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
  const design = designOf(found.judged, wanted.expectation, given);
  if ("problems" in design) return design;
  return answer(partsOf(people, design.design, { expectation: wanted.expectation, given }), record);
}

function designOf(
  judged: JudgedEyes,
  expectation: Expectation,
  given: GivenArguments,
): { readonly design: FunnelDesign } | { readonly problems: readonly Problem[] } {
  const risks = expectedRisks(judged, expectation);
  if ("problems" in risks) return risks;
  const asked = numberGiven(given, "target");
  const limits = textGiven(given, "limits", funnelLimitKinds[0]);
  const about = { judged, limits, risksOf: risks.risksOf };
  if (expectation.kind !== "others") {
    if (asked !== undefined) return { problems: [targetOfRatio(given)] };
    return { design: { ...about, scale: "ratio", target: 1, isOwnRate: false } };
  }
  if (asked !== undefined && !(asked > 0 && asked < 1)) return { problems: [notATarget(given)] };
  const rate = judged.known.filter(judged.hasFailed).length / Math.max(1, judged.known.length);
  if (asked === undefined && judged.known.length > 0 && (rate === 0 || rate === 1)) {
    return { problems: [noRateToStandAround(rate, given)] };
  }
  const target = asked ?? rate;
  return { design: { ...about, scale: "share", target, isOwnRate: asked === undefined } };
}

function partsOf(
  people: PersonGroups,
  design: FunnelDesign,
  { expectation, given }: { readonly expectation: Expectation; readonly given: GivenArguments },
): FunnelParts {
  const found = funnelUnits(people.groups, design);
  const areNamesHidden = areNamesHiddenIn(given);
  const { label, silent, mine } = people;
  const areOthersTogether = othersStandTogether(people, areNamesHidden);
  const source = valueGiven(given, "source");
  return {
    design,
    found,
    shown: areOthersTogether
      ? ownAndOthers(found, people, design)
      : shownUnits(found, { areNamesHidden, mine }),
    label,
    expectation,
    source: source?.kind === "text" ? source.text : undefined,
    areNamesHidden,
    areOthersTogether,
    people: found.units.length,
    mine,
    silent,
  };
}

function answer(parts: FunnelParts, record: EyeRecord): Worked {
  const picks = new PickBook();
  const { design, shown } = parts;
  const table = funnelTable(parts, picks);
  const leftOut = leftOutOfFunnel(parts, picks);
  return {
    answered: {
      answer: {
        question: "funnel",
        asks: "Does anyone stand out by more than chance?",
        sentence: funnelSentence(parts, picks),
        brief: funnelBrief(parts),
        table,
        ...(shown.length === 0
          ? {}
          : { chart: { draw: "funnel" as const, funnel: drawnFunnel(parts) } }),
        cautions: cautionsOf(parts, leftOut),
        unit: "eyes",
        used: design.judged.known.length,
        leftOut,
        figures: funnelFigures(parts),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

/** Where names are hidden only the counts are told, with no way to the eyes. */
function leftOutOfFunnel(parts: FunnelParts, picks: PickBook): LeftOut[] {
  const { design, silent, label, areNamesHidden } = parts;
  const reason = `${label} not recorded`;
  const all = [
    ...notJudged(design.judged, areNamesHidden ? new PickBook() : picks),
    ...(silent.length === 0 ? [] : [{ reason, count: silent.length }]),
  ];
  return areNamesHidden ? all.map((each) => ({ reason: each.reason, count: each.count })) : all;
}

function cautionsOf(parts: FunnelParts, leftOut: Parameters<typeof manyLeftOut>[0]) {
  const { design, shown, found, expectation, areNamesHidden, source } = parts;
  const { judged, scale, isOwnRate } = design;
  const units = shown.map(({ name, eyes, failedEyes }) => ({
    label: name,
    failed: failedEyes.length,
    eyes: eyes.length,
  }));
  const lacking = {
    code: "target-without-source",
    text: "The target has no source: add source: to say who set it.",
  };
  return [
    aboutPeople(),
    ...smallNumbers(units),
    ...severalPeople(parts.areOthersTogether ? 1 : shown.length),
    severalLooks(),
    ...(areNamesHidden ? [parts.areOthersTogether ? othersTogether() : namesHidden()] : []),
    ...(scale === "ratio" ? expectedFrom(expectation) : []),
    ...expectedModelCautions(found.units.map(({ model }) => model)),
    ...(scale === "share" && !isOwnRate && source === undefined ? [lacking] : []),
    ...cannotBeExpected(areNamesHidden ? [] : found.without),
    ...tooRecentToJudge(judged),
    ...peopleNotKnown(judged),
    ...whatWasAssumed(judged.record, expectationColumns(expectation)),
    ...manyLeftOut(leftOut, judged.known.length),
    ...pairedEyes(judged.record),
  ];
}

function targetOfRatio(given: GivenArguments): Problem {
  return {
    code: "target-of-ratio",
    severity: "stop",
    place: { span: given.values.get("target")?.span ?? given.span },
    message: "with risk factors or an expected risk the funnel is around as many as expected",
    expected: "either a target, or what is expected",
    remedy: "leave out `target`, or the risk factors",
  };
}

function notATarget(given: GivenArguments): Problem {
  return {
    code: "not-a-risk",
    severity: "stop",
    place: { span: given.values.get("target")?.span ?? given.span },
    message: "the target is not a share between 0 and 1",
    found: String(numberGiven(given, "target")),
    expected: "a share above 0 and below 1, such as 13%",
  };
}

function noRateToStandAround(rate: number, given: GivenArguments): Problem {
  return {
    code: "no-rate-to-stand-around",
    severity: "stop",
    place: { span: given.span },
    message: `${rate === 0 ? "none" : "all"} failed, so the rate of all together gives no limits`,
    expected: "a target, such as target: 13%",
    remedy: "give target: with source:",
  };
}
