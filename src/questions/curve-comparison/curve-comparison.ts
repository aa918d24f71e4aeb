import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { type LogRankTest, logRank, logRankTrend } from "../../statistics/log-rank.ts";
import { leftOutOf, PickBook, pickRecord } from "../answering/answered-eyes.ts";
import {
  comparingPeople,
  manyLeftOut,
  pairedEyes,
  smallNumbers,
  techniquesChosen,
  undecidedCensored,
  whatWasAssumed,
} from "../answering/cautions.ts";
import {
  againstParameter,
  type ChosenGroups,
  chosenGroups,
  groupsParameter,
  setAside,
} from "../answering/chosen-groups.ts";
import { severalComparisons } from "../answering/comparison-cautions.ts";
import { type Grouping, groupEyes, notRecorded } from "../answering/grouping.ts";
import type { Landmark } from "../answering/landmarks.ts";
import { timesNeeded } from "../answering/timed.ts";
import { windowOf } from "../answering/window.ts";
import { hazardsNotProportional } from "../modelling/model-cautions.ts";
import {
  byParameter,
  eyesGiven,
  eyesParameter,
  question,
  textGiven,
  valueGiven,
  type Worked,
  withinParameter,
} from "../question.ts";
import { comparisonAt, timeAt } from "./comparison-at.ts";
import {
  type ComparisonParts,
  comparisonBrief,
  comparisonFigures,
  comparisonSentence,
  comparisonTable,
  drawnRatios,
} from "./curve-comparison-parts.ts";
import { type CutFollowUp, type HazardRatios, hazardRatios } from "./hazard-ratios.ts";

const tests = ["log-rank", "Gehan–Wilcoxon", "Tarone–Ware", "Peto–Peto"] as const;
type TestName = (typeof tests)[number];

const weightings = {
  "log-rank": "log-rank",
  "Gehan–Wilcoxon": "Gehan",
  "Tarone–Ware": "Tarone-Ware",
  "Peto–Peto": "Peto",
} as const;

/**
 * Do the curves differ? The log-rank test of equal curves (or one of its weighted relatives),
 * within strata where asked, with the observed and expected failures that it rests on; over ordered
 * groups its test for trend; and the hazard ratios of Cox's model, clustered by patient where
 * patients give two eyes, with the check that they hold at all times. With `at:`, besides, the
 * shares still attached at one time and the test that they are equal (Klein and others 2007), which
 * is the question to ask where hazards are not proportional.
 */
export const curveComparison = question(
  {
    name: "curve_comparison",
    meaning: "log-rank test between curves and hazard ratios, within strata where asked",
    asks: "Do the curves differ?",
    example: "curve_comparison(eyes, by: technique)",
    parameters: [
      eyesParameter,
      { ...byParameter, required: true, meaning: "the groups to compare" },
      {
        ...byParameter,
        name: "strata",
        meaning: "compare only within these",
        whenLeftOut: "no strata",
      },
      withinParameter,
      {
        name: "at",
        meaning: "a time at which the curves are compared besides",
        takes: "value",
        kinds: ["duration"],
        required: false,
        whenLeftOut: "none",
      },
      groupsParameter,
      againstParameter,
      {
        name: "ordered",
        meaning: "the groups have an order: test for a trend",
        takes: "value",
        kinds: ["truth"],
        required: false,
        whenLeftOut: "false",
      },
      {
        name: "test",
        meaning: "how failures at different times are weighed",
        takes: "value",
        kinds: ["text"],
        required: false,
        choices: tests,
        whenLeftOut: '"log-rank"',
      },
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const untimed = timesNeeded(record, given);
  if (untimed.length > 0) return { problems: untimed };
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
  const until = windowed.window?.length ?? Number.POSITIVE_INFINITY;
  const timed = timeAt(record, given, until);
  if ("problems" in timed) return timed;
  return answer(found.chosen, { strata, until, record, given, landmark: timed.landmark });
}

interface How {
  readonly record: EyeRecord;
  readonly given: GivenArguments;
  readonly strata: Grouping | undefined;
  readonly until: number;
  /** A time at which the curves are compared besides. */
  readonly landmark: Landmark | undefined;
}

function answer(chosen: ChosenGroups, how: How): Worked {
  const { record } = how;
  const picks = new PickBook();
  const parts = partsOf(chosen, how);
  const by = { label: chosen.grouping.label ?? "", picks, key: "other" };
  const silent = chosen.others.filter(({ label }) => label === notRecorded);
  const unwanted = chosen.others.filter(({ label }) => label !== notRecorded);
  const unrecorded = [...leftOutOf(record), ...setAside(silent, { ...by, key: "silent" })];
  const used = parts.rows.reduce((sum, { eyes }) => sum + eyes.length, 0);
  return {
    answered: {
      answer: {
        question: "curve_comparison",
        asks: "Do the curves differ?",
        sentence: comparisonSentence(parts),
        brief: comparisonBrief(parts),
        table: comparisonTable(parts, picks),
        chart: { draw: "effects", effects: drawnRatios(parts) },
        cautions: cautionsOf(parts, { unrecorded, used, by: chosen.grouping.by }),
        unit: "eyes",
        used,
        leftOut: [...unrecorded, ...setAside(unwanted, by)],
        figures: comparisonFigures(parts),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function partsOf(chosen: ChosenGroups, how: How): ComparisonParts {
  const { record, given, strata, until, landmark } = how;
  const { grouping, reference } = chosen;
  const testName: TestName = textGiven(given, "test", tests[0]);
  const followUp: CutFollowUp = {
    record,
    time: Array.from(record.time, (time) => Math.min(time, until)),
    event: Array.from(record.event, (event, eye) => ((record.time[eye] ?? 0) <= until ? event : 0)),
    strata: strata === undefined ? undefined : codesOf(record, strata),
  };
  const test = testOf(grouping, followUp, testName);
  const plain = testName === "log-rank" ? test : testOf(grouping, followUp, "log-rank");
  const ordered = valueGiven(given, "ordered");
  return {
    record,
    grouping,
    strata,
    test,
    testName,
    trend: ordered?.kind === "truth" && ordered.truth ? logRankTrend(test) : undefined,
    at: landmark === undefined ? undefined : comparisonAt(record, grouping.groups, landmark),
    hazards: hazardRatios(grouping.groups, reference, followUp),
    reference: grouping.groups[reference]?.label ?? "",
    rows: grouping.groups.map(({ label, eyes }, position) => ({
      label,
      eyes,
      failedEyes: eyes.filter((eye) => followUp.event[eye] === 1),
      expected: plain.expected[position] ?? 0,
    })),
  };
}

function testOf(
  { groups }: Grouping,
  { time, event, strata }: CutFollowUp,
  name: TestName,
): LogRankTest {
  const eyes = groups.flatMap((group) => group.eyes);
  return logRank({
    time: eyes.map((eye) => time[eye] ?? 0),
    event: eyes.map((eye) => event[eye] ?? 0),
    group: groups.flatMap((group, position) => group.eyes.map(() => position)),
    groups: groups.map((_, position) => position),
    weighting: weightings[name],
    ...(strata === undefined ? {} : { strata: eyes.map((eye) => strata[eye] ?? 0) }),
  });
}

function codesOf(record: EyeRecord, grouping: Grouping): number[] {
  const codes = new Array<number>(record.time.length).fill(0);
  grouping.groups.forEach((group, position) => {
    for (const eye of group.eyes) codes[eye] = position;
  });
  return codes;
}

const treatments: Readonly<Record<HazardRatios["treatment"], string>> = {
  independent: "the tests treat eyes as independent",
  "by patient":
    "the hazard ratio allows for it (clustered by patient); the tests treat eyes as independent",
  "Firth's as independent":
    "hazard ratios with Wald limits allow for it (clustered by patient); those by Firth's method and the tests treat eyes as independent",
};

function cautionsOf(
  parts: ComparisonParts,
  about: {
    unrecorded: Parameters<typeof manyLeftOut>[0];
    used: number;
    by: readonly string[];
  },
) {
  const { record, rows, hazards } = parts;
  const sizes = rows.map(({ label, eyes, failedEyes }) => ({
    label,
    eyes: eyes.length,
    failed: failedEyes.length,
  }));
  const paired = pairedEyes(record, treatments[hazards.treatment]);
  return [
    ...smallNumbers(sizes),
    ...techniquesChosen(about.by),
    ...comparingPeople(about.by),
    ...severalComparisons(rows.length - 1),
    ...hazardsNotProportional(hazards.proportional?.p ?? null, "The hazard ratio"),
    ...undecidedCensored(record),
    ...whatWasAssumed(record, about.by),
    ...manyLeftOut(about.unrecorded, about.used),
    ...paired,
  ];
}
