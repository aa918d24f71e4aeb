import type { Caution } from "../answer.ts";
import { counted } from "../answering/wording.ts";

/** Rows that share eyes. */
export function countedInEach(several: number): Caution[] {
  if (several === 0) return [];
  return [
    {
      code: "counted-in-each",
      text: `${counted(several, "eye has", "eyes have")} breaks in several places and ${several === 1 ? "counts" : "count"} in each: the rows share eyes and do not add up.`,
    },
  ];
}
