import type { Caution } from "../answer.ts";
import { count } from "../answering/wording.ts";

/** Ends of a course that are not decided, over a tenth. */
export function endsNotDecided(open: number, of: number): Caution[] {
  if (of === 0 || open <= of / 10) return [];
  return [
    {
      code: "ends-not-decided",
      text: `How ${count(open)} of ${count(of)} eyes ended is not decided or not known: the shares are of the others.`,
    },
  ];
}
