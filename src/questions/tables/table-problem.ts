import type { Problem, Span } from "../../problem/problem.ts";

/** What can be wrong with a call of a word over tables. */
export type TableFault =
  | "bands-not-in-order"
  | "column-without-name"
  | "condition-expected"
  | "grouped-by-free-text"
  | "key-kinds-differ"
  | "labels-do-not-fit"
  | "many-to-many"
  | "not-the-same-in-every-row"
  | "nothing-to-draw"
  | "number-expected"
  | "pairs-expected"
  | "too-many-groups"
  | "value-in-two-groups"
  | "whole-number-expected";

/** A problem at a span of the working. */
export function tableProblem(
  code: TableFault,
  span: Span,
  text: Pick<Problem, "message" | "found" | "expected" | "remedy">,
): Problem {
  return { code, severity: "stop", place: { span }, ...text };
}
