import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { breslowDay } from "../../statistics/breslow-day.ts";
import {
  mantelHaenszelDifference,
  mantelHaenszelOddsRatio,
  mantelHaenszelRiskRatio,
  mantelHaenszelTest,
} from "../../statistics/mantel-haenszel.ts";
import type { ComparisonEstimate } from "../../statistics/newcombe-difference.ts";
import { hasEmptyGroup, type Part, type TwoByTwo } from "../../statistics/two-by-two.ts";
import type { AnswerCell, Caution, FigureRecord } from "../answer.ts";
import { techniquesChosen } from "../answering/cautions.ts";
import { counted, listed, pValue } from "../answering/wording.ts";
import { question, textGiven, type Worked } from "../question.ts";
import {
  byColumnParameter,
  departmentsGiven,
  departmentsParameter,
  type PooledGroup,
  pooledGroups,
} from "./departments.ts";
import { definitionWords, pooledAnswer, withheldCaution } from "./pooled-answer.ts";
import { isExact, knownBounds, sumOf } from "./pooled-counts.ts";

/**
 * Do two groups differ, within departments? Mantel–Haenszel over departments as strata, so that a
 * department that does more of one operation and has other patients is compared with itself; the
 * Breslow–Day test (Tarone) of whether the odds ratio is the same everywhere.
 */
export const pooledDifference = question(
  {
    name: "pooled_difference",
    meaning: "two groups compared within each of several departments, and in common",
    asks: "Do two groups differ, within departments?",
    example:
      'pooled_difference(departments, by: "technique", first: "vitrectomy", second: "scleral buckle")',
    parameters: [
      departmentsParameter,
      { ...byColumnParameter, required: true, meaning: "the column that both groups are of" },
      group("first", "the group that is compared"),
      group("second", "the group it is compared with"),
    ],
  },
  work,
);

function group(name: string, meaning: string) {
  return { name, meaning, takes: "value" as const, kinds: ["text"], required: true };
}

/** The tables of the departments at both corners: the least and the most in disfavour of the first. */
interface Strata {
  readonly units: readonly string[];
  readonly least: readonly TwoByTwo[];
  readonly most: readonly TwoByTwo[];
  /** Departments of which not even how many are known is told. */
  readonly without: readonly string[];
}

function work(given: GivenArguments): Worked {
  const files = departmentsGiven(given);
  const found = pooledGroups(files, given);
  if ("problems" in found) return found;
  const names = [
    textGiven<string>(given, "first", ""),
    textGiven<string>(given, "second", ""),
  ] as const;
  const [first, second] = names.map((name) => found.groups.find(({ label }) => label === name));
  if (first === undefined || second === undefined || first === second) {
    return { problems: [noSuchGroups(given, found.groups)] };
  }
  const strata = strataOf(first, second);
  const isBounded = JSON.stringify(strata.least) !== JSON.stringify(strata.most);
  const measures = [
    { name: "risk difference", ...between(strata, mantelHaenszelDifference) },
    { name: "risk ratio", ...between(strata, mantelHaenszelRiskRatio) },
    { name: "odds ratio", ...between(strata, mantelHaenszelOddsRatio) },
  ];
  const informative = strata.least.filter((table) => !hasEmptyGroup(table)).length;
  const test = isBounded || informative === 0 ? null : mantelHaenszelTest(strata.least);
  const homogeneity = isBounded ? null : breslowDay(strata.least);
  const column = textGiven<string>(given, "by", "");
  const tested =
    test === null
      ? "no test where counts are withheld or nothing can be compared"
      : `Mantel–Haenszel test ${pValue(test.pValue)}`;
  const same =
    homogeneity === null ? "" : `; Breslow–Day (Tarone) ${pValue(homogeneity.taronePValue)}`;
  return pooledAnswer(
    files,
    {
      question: "pooled_difference",
      asks: pooledDifference.asks,
      sentence: [
        `Within ${counted(informative, "department")}, ${names[0]} against ${names[1]} (${definitionWords(files)}): Mantel–Haenszel odds ratio ${measureText(measures[2])}; ${tested}${same}.`,
      ],
      table: {
        columns: [
          { label: "measure", kind: "text" },
          { label: "over departments (95%)", kind: "estimate" },
        ],
        rows: measures.map((measure) => [
          { text: measure.name, value: measure.name },
          measureCell(measure),
        ]),
      },
      figures: {
        headline: measureText(measures[2]),
        departments: informative,
        measures: measures.map(measureFigures),
        p: test?.pValue ?? null,
        homogeneity_p: homogeneity?.taronePValue ?? null,
        breslow_day_p: homogeneity?.pValue ?? null,
      },
    },
    {
      used: {
        least: sumOf(first.parts, "eyes").least + sumOf(second.parts, "eyes").least,
        most: 0,
      },
      cautions: [
        ...techniquesChosen([column]),
        ...withheldCaution(isBounded),
        ...leftOutOfComparison(strata.without),
      ],
    },
  );
}

/**
 * With the eyes known fixed, each measure rises with every failure of the first group and falls with
 * every failure of the second, so that its bounds lie at the corners.
 */
function strataOf(first: PooledGroup, second: PooledGroup): Strata {
  const units = first.parts.map((one, at) => ({ one, other: second.parts[at] ?? one }));
  const isTold = ({ one, other }: (typeof units)[number]) =>
    [one, other].every((part) => isExact(knownBounds(part)));
  const table = ({ one, other }: (typeof units)[number], side: "least" | "most"): TwoByTwo => {
    const against = side === "least" ? "most" : "least";
    const part = (of: typeof one, end: "least" | "most"): Part => ({
      failed: Math.min(of.bounds.failed[end], knownBounds(of).least),
      total: knownBounds(of).least,
    });
    return { first: part(one, side), second: part(other, against) };
  };
  const told = units.filter(isTold);
  return {
    units: told.map(({ one }) => one.file.unit),
    least: told.map((each) => table(each, "least")),
    most: told.map((each) => table(each, "most")),
    without: units.filter((each) => !isTold(each)).map(({ one }) => one.file.unit),
  };
}

interface Measure {
  readonly name: string;
  readonly least: ComparisonEstimate | null;
  readonly most: ComparisonEstimate | null;
}

function between(
  { least, most }: Strata,
  estimate: (tables: readonly TwoByTwo[]) => ComparisonEstimate | null,
): Omit<Measure, "name"> {
  return { least: estimate(least), most: estimate(most) };
}

function measureText(measure: Measure | undefined): string {
  return measure === undefined ? "–" : measureCell(measure).text;
}

function measureCell({ least, most }: Measure): AnswerCell {
  if (least === null || most === null) return { text: "not estimable", value: null };
  const isOne = Math.abs(most.estimate - least.estimate) < 1e-12;
  const value = isOne
    ? least.estimate.toFixed(3)
    : `${least.estimate.toFixed(3)} to ${most.estimate.toFixed(3)}`;
  return {
    text: `${value} (95% ${least.lower.toFixed(3)} to ${most.upper.toFixed(3)})`,
    value: isOne ? least.estimate : null,
    limits: { lower: least.lower, upper: most.upper },
  };
}

function measureFigures({ name, least, most }: Measure): FigureRecord {
  return {
    measure: name,
    lowest: least?.estimate ?? null,
    highest: most?.estimate ?? null,
    lower: least?.lower ?? null,
    upper: most?.upper ?? null,
  };
}

function leftOutOfComparison(units: readonly string[]): Caution[] {
  if (units.length === 0) return [];
  return [
    {
      code: "departments-left-out",
      text: `Left out of the comparison, since how many outcomes are known in one of the groups is withheld: ${listed(units)}.`,
    },
  ];
}

function noSuchGroups(given: GivenArguments, groups: readonly PooledGroup[]): Problem {
  return {
    code: "no-such-group",
    severity: "stop",
    place: { span: given.span },
    message: "`first` and `second` are not two groups of this column",
    expected: `two of ${groups.map(({ label }) => label).join(", ")}`,
  };
}
