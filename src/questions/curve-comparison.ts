import type { GivenArguments } from "../formula/vocabulary.ts";
import { type EyeRecord, eyeCount } from "../outcomes/eye-record.ts";
import { type LogRankTest, logRank } from "../statistics/log-rank.ts";
import type { AnswerTable, Sentence } from "./answer.ts";
import { leftOutOf, PickBook, pickRecord } from "./answering/answered-eyes.ts";
import {
  comparingPeople,
  manyLeftOut,
  pairedEyes,
  smallNumbers,
  techniquesChosen,
  undecidedCensored,
} from "./answering/cautions.ts";
import { type Grouping, groupEyes } from "./answering/grouping.ts";
import { windowOf } from "./answering/window.ts";
import { counted, listed, pValue } from "./answering/wording.ts";
import {
  byParameter,
  eyesGiven,
  eyesParameter,
  question,
  textGiven,
  type Worked,
  withinParameter,
} from "./question.ts";

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
 * within strata where asked, with the observed and expected failures that it rests on.
 */
export const curveComparison = question(
  {
    name: "curve_comparison",
    meaning: "log-rank test between curves, within strata where asked",
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

interface Comparison {
  readonly record: EyeRecord;
  readonly grouping: Grouping;
  readonly strata: Grouping | undefined;
  readonly test: LogRankTest;
  readonly testName: TestName;
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
  const testName: TestName = textGiven(given, "test", "log-rank");
  const strata = given.rows.has("strata") ? stratified.grouping : undefined;
  const until = windowed.window?.length ?? Number.POSITIVE_INFINITY;
  const test = logRank({
    time: record.time.map((time) => Math.min(time, until)),
    event: record.event.map((event, eye) => ((record.time[eye] ?? 0) <= until ? event : 0)),
    group: codesOf(record, grouped.grouping),
    groups: grouped.grouping.groups.map((_, position) => position),
    weighting: weightings[testName],
    ...(strata === undefined ? {} : { strata: codesOf(record, strata) }),
  });
  return answer({ record, grouping: grouped.grouping, strata, test, testName });
}

function codesOf(record: EyeRecord, grouping: Grouping): number[] {
  const codes = new Array<number>(record.time.length).fill(0);
  grouping.groups.forEach((group, position) => {
    for (const eye of group.eyes) codes[eye] = position;
  });
  return codes;
}

function answer(comparison: Comparison): Worked {
  const { record, grouping, test, testName } = comparison;
  const picks = new PickBook();
  const leftOut = leftOutOf(record);
  const rows = grouping.groups.map((group, position) => ({
    label: group.label,
    eyes: group.eyes.length,
    failed: test.observed[position] ?? 0,
    expected: test.expected[position] ?? 0,
  }));
  return {
    answered: {
      answer: {
        question: "curve_comparison",
        asks: "Do the curves differ?",
        sentence: comparisonSentence(comparison),
        table: comparisonTable(comparison, rows, picks),
        cautions: [
          ...smallNumbers(rows),
          ...techniquesChosen(grouping.by),
          ...comparingPeople(grouping.by),
          ...undecidedCensored(record),
          ...manyLeftOut(leftOut, eyeCount(record)),
          ...pairedEyes(record),
        ],
        unit: "eyes",
        used: eyeCount(record),
        leftOut,
        figures: {
          test: testName,
          stratified: comparison.strata !== undefined,
          chi_square: test.chiSquare,
          degrees_of_freedom: test.degreesOfFreedom,
          p: test.pValue,
          groups: rows.map(({ label, eyes, failed, expected }) => ({
            group: label,
            eyes,
            observed: failed,
            expected,
          })),
        },
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function comparisonSentence({ grouping, strata, test, testName }: Comparison): Sentence {
  const groups = grouping.groups.map((group) => group.label);
  if (test.degreesOfFreedom === 0) {
    return [
      `There is nothing to compare: only one group by ${grouping.label} has eyes at risk when any failed.`,
    ];
  }
  const within = strata === undefined ? "" : `, within ${strata.label}`;
  const how =
    `${strata === undefined ? "" : "stratified "}${testName} test${within}: chi-square ` +
    `${test.chiSquare.toFixed(2)} on ${counted(test.degreesOfFreedom, "degree")} of freedom, ${pValue(test.pValue)}`;
  const which = groups.length <= 5 ? listed(groups) : `the ${groups.length} groups`;
  return test.pValue < 0.05
    ? [`The curves of ${which} differ by more than chance alone would readily give (${how}).`]
    : [
        `These eyes do not show that the curves of ${which} differ (${how}); that is not proof that they are the same.`,
      ];
}

function comparisonTable(
  { grouping }: Comparison,
  rows: readonly { label: string; eyes: number; failed: number; expected: number }[],
  picks: PickBook,
): AnswerTable {
  return {
    columns: [
      { label: grouping.label ?? "", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: "failed", kind: "number" },
      { label: "expected if equal", kind: "number" },
      { label: "observed / expected", kind: "number" },
    ],
    rows: rows.map((row, position) => {
      const eyes = grouping.groups[position]?.eyes ?? [];
      const pick = picks.add(`g${position}`, `${row.label}, all eyes`, eyes);
      const ratio = row.expected > 0 ? row.failed / row.expected : null;
      return [
        { text: row.label, value: row.label },
        { text: String(row.eyes), value: row.eyes, ...(pick === undefined ? {} : { pick }) },
        { text: String(row.failed), value: row.failed },
        { text: row.expected.toFixed(1), value: row.expected },
        { text: ratio === null ? "–" : ratio.toFixed(2), value: ratio },
      ];
    }),
  };
}
