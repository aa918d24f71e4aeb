import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import { textGiven } from "../question.ts";

const names = ["hidden", "shown"] as const;

/** Whether people stand under their codes: never unless asked. */
export const namesParameter: Parameter = {
  name: "names",
  meaning: "whether codes are shown",
  takes: "value",
  kinds: ["text"],
  required: false,
  choices: names,
  whenLeftOut: `"${names[0]}"`,
  byNameOnly: true,
};

export function areNamesHiddenIn(given: GivenArguments): boolean {
  return textGiven(given, "names", names[0]) === "hidden";
}
