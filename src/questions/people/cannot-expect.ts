import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";

/** The eyes of others tell no risk. */
export function cannotExpect(why: string, given: GivenArguments): Problem {
  return {
    code: "cannot-be-expected",
    severity: "stop",
    place: { span: given.span },
    message: `nothing can be expected from the eyes of others: ${why}`,
    expected: "enough failures among the eyes of others",
    remedy: "leave factors out, take in more years, or give expected: with source:",
  };
}
