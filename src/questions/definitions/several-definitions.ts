import type { Caution } from "../answer.ts";

/** Several ways of counting side by side invite choosing the one that reads best. */
export function severalDefinitions(): Caution[] {
  return [
    {
      code: "several-definitions",
      text: "Agree on one way of counting before looking at the rates, and quote that one with its definition.",
    },
  ];
}
