import type { Caution } from "../answer.ts";
import { count, counted, listed } from "./wording.ts";

/** Several comparisons in one answer. */
export function severalComparisons(comparisons: number): Caution[] {
  if (comparisons < 2) return [];
  return [
    {
      code: "several-comparisons",
      text: `${count(comparisons)} comparisons are made here: where nothing differs, about one in twenty would still leave no difference outside its interval.`,
    },
  ];
}

/** Strata with eyes of one group only, and strata that do not agree. */
export function strataDisagree(strata: {
  readonly oneSided: readonly string[];
  readonly number: number;
  /** p of the test that the odds ratio is the same in all. */
  readonly homogeneity: number | null;
}): Caution[] {
  const { oneSided, number, homogeneity } = strata;
  const cautions: Caution[] = [];
  if (oneSided.length > 0) {
    cautions.push({
      code: "strata-without-overlap",
      text: `In ${count(oneSided.length)} of ${counted(number, "stratum", "strata")} (${listed(oneSided)}) only one of the two groups has eyes: ${oneSided.length === 1 ? "it says" : "they say"} nothing about the difference.`,
    });
  }
  if (homogeneity !== null && homogeneity < 0.05) {
    cautions.push({
      code: "strata-differ",
      text: "The odds ratio is not the same in all strata (see the test beside it): one common figure hides that; read the strata.",
    });
  }
  return cautions;
}
