import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import type { Answer } from "../answer.ts";
import { leftOutOf, PickBook, pickRecord } from "../answering/answered-eyes.ts";
import {
  clusteredIntervals,
  comparingPeople,
  earlyVisits,
  manyLeftOut,
  manyNotKnown,
  pairedEyes,
  smallNumbers,
  techniquesChosen,
  whatWasAssumed,
} from "../answering/cautions.ts";
import {
  againstParameter,
  type ChosenGroups,
  chosenGroups,
  groupsParameter,
  setAside,
} from "../answering/chosen-groups.ts";
import { severalComparisons, strataDisagree } from "../answering/comparison-cautions.ts";
import { type Group, groupEyes, notRecorded } from "../answering/grouping.ts";
import { windowOf } from "../answering/window.ts";
import {
  byParameter,
  eyesGiven,
  eyesParameter,
  question,
  textGiven,
  type Worked,
  withinParameter,
} from "../question.ts";
import { type ComparisonRequest, compareGroups, orderedGiven } from "./compare-groups.ts";
import { type CompareOptions, differenceMethods, testsOffered } from "./compare-two.ts";
import { differenceBrief } from "./rate-difference-brief.ts";
import { type DifferenceParts, differenceFigures, notKnownOf } from "./rate-difference-parts.ts";
import { differenceSentence } from "./rate-difference-sentence.ts";
import { differenceTable, drawnDifferences } from "./rate-difference-table.ts";

/**
 * Did one fail more often than the other? The difference of failure rates between groups among eyes
 * whose outcome at the window is known, with Newcombe's hybrid score interval (1998) or that of
 * Miettinen and Nurminen (1985), the risk and odds ratios, and a test by name: exact where an
 * expected count is under 5. The difference of the curves at the window, which uses every eye,
 * stands beside it and leads where eyes are not known. Within strata, the Mantel–Haenszel common
 * difference and ratios with the Breslow–Day test; over ordered groups, the Cochran–Armitage trend.
 */
export const rateDifference = question(
  {
    name: "rate_difference",
    meaning: "difference of failure rates between groups, with interval, ratios and test",
    asks: "Did one fail more often than the other?",
    example:
      'rate_difference(eyes, by: technique, groups: ["scleral buckle", "vitrectomy"], within: 12 months)',
    parameters: [
      eyesParameter,
      { ...byParameter, required: true, meaning: "the groups to compare" },
      withinParameter,
      groupsParameter,
      againstParameter,
      {
        ...byParameter,
        name: "strata",
        meaning: "compare only within these",
        whenLeftOut: "no strata",
      },
      value("ordered", "the groups have an order: test for a trend", ["truth"], "false"),
      choice("interval", "the method of the 95% interval of the difference", differenceMethods),
      choice("test", "the test that stands beside the difference", testsOffered),
      value(
        "tolerance",
        "how early the visit that ends the window may come",
        ["duration"],
        "0 days",
      ),
    ],
  },
  work,
);

function value(name: string, meaning: string, kinds: string[], whenLeftOut: string): Parameter {
  return { name, meaning, takes: "value", kinds, required: false, whenLeftOut };
}

function choice(name: string, meaning: string, choices: readonly string[]): Parameter {
  return { ...value(name, meaning, ["text"], `"${choices[0]}"`), choices };
}

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const windowed = windowOf(record, given);
  const grouped = groupEyes(record, given.rows.get("by"));
  const stratified = groupEyes(record, given.rows.get("strata"));
  const problems = [windowed, grouped, stratified].flatMap((each) =>
    "problems" in each ? each.problems : [],
  );
  if ("problems" in windowed || "problems" in grouped || "problems" in stratified) {
    return { problems };
  }
  const found = chosenGroups(grouped.grouping, given);
  if ("problems" in found) return found;
  const strata = given.rows.has("strata") ? stratified.grouping : undefined;
  const wrong = strata === undefined ? undefined : wrongWithStrata(found.chosen, given);
  if (wrong !== undefined) return { problems: [wrong] };
  const options: CompareOptions = {
    record,
    window: windowed.window,
    method: textGiven(given, "interval", differenceMethods[0]),
    test: textGiven(given, "test", testsOffered[0]),
  };
  return answer({ ...found, strata, options, given });
}

function wrongWithStrata({ grouping }: ChosenGroups, given: GivenArguments) {
  const isOrdered = orderedGiven(given);
  if (grouping.groups.length <= 2 && !isOrdered) return undefined;
  return {
    code: "strata-of-many-groups",
    severity: "stop" as const,
    place: { span: given.rows.get("strata")?.span ?? given.span },
    message: isOrdered
      ? "a trend is not tested within strata"
      : `${grouping.groups.length} groups cannot be compared within strata at once`,
    expected: "two groups within strata",
    remedy: isOrdered
      ? "leave strata out, or ordered"
      : 'name two of them, such as groups: ["scleral buckle", "vitrectomy"]',
  };
}

function answer(request: ComparisonRequest): Worked {
  const { chosen, strata } = request;
  const { record } = request.options;
  const picks = new PickBook();
  const parts = compareGroups(request);
  const by = { label: chosen.grouping.label ?? "", picks, key: "other" };
  const isSilent = ({ label }: Group): boolean => label === notRecorded;
  const unrecorded = [
    ...leftOutOf(record),
    ...setAside(chosen.others.filter(isSilent), { ...by, key: "silent" }),
    ...silentStrata(request, picks),
  ];
  const unwanted = setAside(
    chosen.others.filter((group) => !isSilent(group)),
    by,
  );
  const used = parts.groups.reduce((sum, { eyes, notKnown }) => sum + eyes + notKnown, 0);
  return {
    answered: {
      answer: {
        question: "rate_difference",
        asks: "Did one fail more often than the other?",
        sentence: differenceSentence(parts),
        brief: differenceBrief(parts),
        table: differenceTable(parts, picks),
        chart: { draw: "effects", effects: drawnDifferences(parts) },
        cautions: cautionsOf(parts, {
          leftOut: unrecorded,
          used,
          by: [...chosen.grouping.by, ...(strata?.by ?? [])],
        }),
        unit: "eyes",
        used,
        leftOut: [...unrecorded, ...unwanted],
        figures: { ...differenceFigures(parts), within: strata?.label ?? null },
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function silentStrata({ chosen, strata }: ComparisonRequest, picks: PickBook) {
  const silent = new Set(strata?.groups.find(({ label }) => label === notRecorded)?.eyes);
  const eyes = chosen.grouping.groups.flatMap((group) => group.eyes.filter((e) => silent.has(e)));
  if (eyes.length === 0) return [];
  return setAside([{ label: notRecorded, eyes }], {
    label: strata?.label ?? "",
    picks,
    key: "stratum",
  });
}

function cautionsOf(
  parts: DifferenceParts,
  { leftOut, used, by }: { leftOut: Answer["leftOut"]; used: number; by: readonly string[] },
): Answer["cautions"] {
  const { strata, record, groups, compared } = parts;
  const rows = groups.map(({ label, failed, eyes, notKnown }) => ({
    label,
    failed,
    eyes: eyes + notKnown,
  }));
  return [
    ...smallNumbers(rows),
    ...techniquesChosen(by),
    ...comparingPeople(by),
    ...(strata === undefined
      ? []
      : strataDisagree({
          oneSided: strata.oneSided,
          number: strata.strata.length,
          homogeneity: strata.homogeneity?.taronePValue ?? null,
        })),
    ...severalComparisons(compared.length),
    ...manyNotKnown(record, notKnownOf(parts), used),
    ...earlyVisits(record, parts),
    ...whatWasAssumed(record, by),
    ...manyLeftOut(leftOut, used),
    ...pairedEyes(
      record,
      `${clusteredIntervals}${strata === undefined ? "" : ", those across strata do not"}; the tests treat eyes as independent`,
    ),
  ];
}
