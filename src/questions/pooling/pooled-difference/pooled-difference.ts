import type { GivenArguments } from "../../../formula/vocabulary.ts";
import type { Problem } from "../../../problem/problem.ts";
import { breslowDay } from "../../../statistics/breslow-day.ts";
import { mantelHaenszelTest } from "../../../statistics/mantel-haenszel.ts";
import type { Caution, FigureRecord, Sentence } from "../../answer.ts";
import { techniquesChosen } from "../../answering/cautions.ts";
import { counted, listed, pValue } from "../../answering/wording.ts";
import { question, textGiven, type Worked } from "../../question.ts";
import {
  byColumnParameter,
  departmentsGiven,
  departmentsParameter,
  type PooledGroup,
  pooledGroups,
} from "../departments.ts";
import { areNamesShownIn, namesParameter } from "../names-of-departments.ts";
import { definitionWords, pooledAnswer, withheldCaution } from "../pooled-answer.ts";
import { sumOf } from "../pooled-counts.ts";
import {
  differenceTable,
  drawnOdds,
  measureCell,
  measureFigures,
} from "./pooled-difference-table.ts";
import {
  type DifferenceParts,
  informative,
  isBounded,
  measuresOver,
  strataOfDepartments,
} from "./strata-of-departments.ts";

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
      namesParameter,
    ],
  },
  work,
);

function group(name: string, meaning: string) {
  return { name, meaning, takes: "value" as const, kinds: ["text"], required: true };
}

function work(given: GivenArguments): Worked {
  const files = departmentsGiven(given);
  const found = pooledGroups(files, given);
  if ("problems" in found) return found;
  const text = (name: string) => textGiven<string>(given, name, "");
  const names = [text("first"), text("second")] as const;
  const [first, second] = names.map((name) => found.groups.find(({ label }) => label === name));
  if (first === undefined || second === undefined || first === second) {
    return { problems: [noSuchGroups(given, found.groups)] };
  }
  const parts: DifferenceParts = {
    names,
    found: strataOfDepartments(first, second),
    areNamed: areNamesShownIn(given),
  };
  const without = new Set(parts.found.without);
  const eyesOf = (isCompared: boolean): number =>
    [first, second]
      .map((group) => group.parts.filter(({ file }) => without.has(file.unit) !== isCompared))
      .reduce((sum, some) => sum + sumOf(some, "eyes").least, 0);
  const leftOut = [{ reason: "of departments that cannot be compared", count: eyesOf(false) }];
  return pooledAnswer(
    files,
    {
      question: "pooled_difference",
      asks: pooledDifference.asks,
      sentence: sentenceOf(parts, definitionWords(files)),
      table: differenceTable(parts),
      chart: { draw: "effects", effects: drawnOdds(parts) },
      figures: figuresOf(parts),
    },
    {
      used: { least: eyesOf(true), most: 0 },
      cautions: cautionsOf(parts, text("by")),
      leftOut: leftOut.filter(({ count }) => count > 0),
    },
  );
}

/** The tests, where all counts are told and something can be compared. */
function testsOf({ found }: DifferenceParts) {
  const tables = found.strata.map(({ least }) => least);
  const cannot = isBounded(found) || informative(found).length === 0;
  return {
    test: cannot ? null : mantelHaenszelTest(tables),
    homogeneity: isBounded(found) ? null : breslowDay(tables),
  };
}

function sentenceOf(parts: DifferenceParts, definition: string): Sentence {
  const { names, found } = parts;
  const strata = informative(found);
  const { test, homogeneity } = testsOf(parts);
  const tested =
    test === null
      ? "no test where counts are withheld or nothing can be compared"
      : `Mantel–Haenszel test ${pValue(test.pValue)}`;
  const same =
    homogeneity === null ? "" : `; Breslow–Day (Tarone) ${pValue(homogeneity.taronePValue)}`;
  return [
    `Within ${counted(strata.length, "department")}, ${names[0]} against ${names[1]} (${definition}): Mantel–Haenszel odds ratio ${measureCell(measuresOver(strata).odds).text}; ${tested}${same}.`,
  ];
}

function figuresOf(parts: DifferenceParts): FigureRecord {
  const strata = informative(parts.found);
  const { difference, ratio, odds } = measuresOver(strata);
  const { test, homogeneity } = testsOf(parts);
  return {
    headline: measureCell(odds).text,
    departments: strata.length,
    measures: [difference, ratio, odds].map(measureFigures),
    p: test?.pValue ?? null,
    homogeneity_p: homogeneity?.taronePValue ?? null,
    breslow_day_p: homogeneity?.pValue ?? null,
  };
}

function cautionsOf({ found }: DifferenceParts, column: string): Caution[] {
  return [
    ...techniquesChosen([column]),
    ...withheldCaution(isBounded(found)),
    ...leftOutOfComparison(found.without),
  ];
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
