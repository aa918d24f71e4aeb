import {
  mantelHaenszelDifference,
  mantelHaenszelOddsRatio,
  mantelHaenszelRiskRatio,
} from "../../../statistics/mantel-haenszel.ts";
import type { ComparisonEstimate } from "../../../statistics/newcombe-difference.ts";
import { hasEmptyGroup, type Part, type TwoByTwo } from "../../../statistics/two-by-two.ts";
import type { DepartmentPart, PooledGroup } from "../departments.ts";
import { isExact, knownBounds } from "../pooled-counts.ts";

/** One department's table of two groups: the least and the most in disfavour of the first. */
export interface DepartmentStratum {
  readonly unit: string;
  readonly least: TwoByTwo;
  readonly most: TwoByTwo;
}

export interface DepartmentStrata {
  readonly strata: readonly DepartmentStratum[];
  /** Departments of which not even how many are known is told. */
  readonly without: readonly string[];
}

/** What the sentence, the table and the chart of a difference are all made from. */
export interface DifferenceParts {
  /** The two groups, the one that is compared first. */
  readonly names: readonly [string, string];
  readonly found: DepartmentStrata;
  /** Whether departments stand under their names. */
  readonly areNamed: boolean;
}

/** A measure at both corners; null: not estimable. */
export interface Measure {
  readonly name: string;
  readonly least: ComparisonEstimate | null;
  readonly most: ComparisonEstimate | null;
}

/**
 * With the eyes known fixed, each measure rises with every failure of the first group and falls with
 * every failure of the second, so that its bounds lie at the corners.
 */
export function strataOfDepartments(first: PooledGroup, second: PooledGroup): DepartmentStrata {
  const units = first.parts.map((one, at) => ({ one, other: second.parts[at] ?? one }));
  const isTold = ({ one, other }: (typeof units)[number]) =>
    [one, other].every((part) => isExact(knownBounds(part)));
  return {
    strata: units.filter(isTold).map(({ one, other }) => ({
      unit: one.file.unit,
      least: { first: partOf(one, "least"), second: partOf(other, "most") },
      most: { first: partOf(one, "most"), second: partOf(other, "least") },
    })),
    without: units.filter((each) => !isTold(each)).map(({ one }) => one.file.unit),
  };
}

function partOf(part: DepartmentPart, end: "least" | "most"): Part {
  const total = knownBounds(part).least;
  return { failed: Math.min(part.bounds.failed[end], total), total };
}

/** Whether failures are withheld somewhere. */
export function isBounded({ strata }: DepartmentStrata): boolean {
  return strata.some(
    ({ least, most }) =>
      least.first.failed !== most.first.failed || least.second.failed !== most.second.failed,
  );
}

/** Strata in which both groups have eyes, so that they can be compared. */
export function informative({ strata }: DepartmentStrata): readonly DepartmentStratum[] {
  return strata.filter(({ least }) => !hasEmptyGroup(least));
}

/** Mantel and Haenszel's measures over departments. */
export function measuresOver(strata: readonly DepartmentStratum[]) {
  const least = strata.map((stratum) => stratum.least);
  const most = strata.map((stratum) => stratum.most);
  const between = (
    name: string,
    estimate: (tables: readonly TwoByTwo[]) => ComparisonEstimate | null,
  ): Measure => ({ name, least: estimate(least), most: estimate(most) });
  return {
    difference: between("risk difference", mantelHaenszelDifference),
    ratio: between("risk ratio", mantelHaenszelRiskRatio),
    odds: between("odds ratio", mantelHaenszelOddsRatio),
  };
}
