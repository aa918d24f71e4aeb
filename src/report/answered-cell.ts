import type { Answer, Answered } from "../questions/answer.ts";
import type { ReportedCell } from "./report-input.ts";

/** The answer of a cell that has one. */
export function answerOf({ state }: ReportedCell): Answer | undefined {
  if (state.status !== "current") return undefined;
  const { value } = state;
  return value.kind === "thing" && value.of === "answer"
    ? (value.content as Answered).answer
    : undefined;
}
