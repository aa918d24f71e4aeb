import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import { textGiven } from "../question.ts";

const names = ["hidden", "shown"] as const;

/** Whether departments stand under their names: numbered by size unless asked. */
export const namesParameter: Parameter = {
  name: "names",
  meaning: "whether departments are named",
  takes: "value",
  kinds: ["text"],
  required: false,
  choices: names,
  whenLeftOut: `"${names[0]}"`,
};

export function areNamesShownIn(given: GivenArguments): boolean {
  return textGiven<(typeof names)[number]>(given, "names", names[0]) === "shown";
}
