import { breslowDay, type HomogeneityTest } from "../../statistics/breslow-day.ts";
import { stratifiedExact } from "../../statistics/fisher-exact.ts";
import {
  mantelHaenszelDifference,
  mantelHaenszelOddsRatio,
  mantelHaenszelRiskRatio,
  mantelHaenszelTest,
} from "../../statistics/mantel-haenszel.ts";
import type { ComparisonEstimate } from "../../statistics/newcombe-difference.ts";
import { cellsOf, hasEmptyGroup, type TwoByTwo } from "../../statistics/two-by-two.ts";
import { type NamedTest, type TestOffered, type TwoCompared, tableOf } from "./compare-two.ts";

/** Two groups compared within each stratum, and in common. */
export interface StrataCompared {
  /** What the strata are, as a person reads it. */
  readonly label: string;
  readonly strata: readonly { readonly label: string; readonly compared: TwoCompared }[];
  readonly difference: ComparisonEstimate | null;
  readonly riskRatio: ComparisonEstimate | null;
  readonly oddsRatio: ComparisonEstimate | null;
  /** That there is no difference in any stratum. Null where nothing can be tested. */
  readonly test: NamedTest | null;
  /** That the odds ratio is the same in all strata, Tarone's correction in. */
  readonly homogeneity: HomogeneityTest | null;
  /** Strata that hold eyes of one group only: they say nothing about the difference. */
  readonly oneSided: readonly string[];
}

export function acrossStrata(
  label: string,
  strata: StrataCompared["strata"],
  asked: TestOffered,
): StrataCompared {
  const tables = strata.map(({ compared }) => tableOf(compared.first, compared.second));
  return {
    label,
    strata,
    difference: mantelHaenszelDifference(tables),
    riskRatio: mantelHaenszelRiskRatio(tables),
    oddsRatio: mantelHaenszelOddsRatio(tables),
    test: commonTest(tables, asked),
    homogeneity: breslowDay(tables),
    oneSided: strata.filter((_, i) => hasEmptyGroup(tables[i]!)).map((each) => each.label),
  };
}

function commonTest(tables: readonly TwoByTwo[], asked: TestOffered): NamedTest | null {
  const room = roomToVary(tables);
  if (room < 1e-9) return null;
  const test = mantelHaenszelTest(tables);
  const isExact = asked === "by expected counts" && room < 5;
  if (asked === "Fisher's mid-P") {
    return { name: "exact stratified test, mid-P", p: stratifiedExact(tables).midP };
  }
  if (isExact || asked === "Fisher's exact") {
    return { name: "exact stratified test", p: stratifiedExact(tables).pTwoSided };
  }
  return asked === "chi-square with Yates' correction"
    ? { name: "Mantel–Haenszel test with continuity correction", p: test.correctedPValue }
    : { name: "Mantel–Haenszel test", p: test.pValue };
}

/**
 * How far the failures of the first group, summed over strata, could lie from what is expected of
 * them: under 5 the chi-square is not to be relied on (Mantel and Fleiss, American Journal of
 * Epidemiology 1980;112:129).
 */
function roomToVary(tables: readonly TwoByTwo[]): number {
  let [expected, least, most] = [0, 0, 0];
  for (const table of tables.filter((each) => !hasEmptyGroup(each))) {
    const { firstFailed, secondFailed, total } = cellsOf(table);
    const failed = firstFailed + secondFailed;
    expected += (table.first.total * failed) / total;
    least += Math.max(0, failed - table.second.total);
    most += Math.min(failed, table.first.total);
  }
  return Math.min(expected - least, most - expected);
}
