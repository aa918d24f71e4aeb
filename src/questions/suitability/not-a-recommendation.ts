import type { Caution } from "../answer.ts";

/** Features of an eye counted by common practice. */
export function notARecommendation(): Caution[] {
  return [
    {
      code: "not-a-recommendation",
      text: "The features are common practice without a published source, counted and not weighted: they describe how eyes were chosen and never say which operation an eye should have.",
    },
  ];
}
