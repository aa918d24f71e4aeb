import type { CountedSet } from "../disclosure/counted-set.ts";
import type { AnswerToShare } from "./answer-to-share.ts";
import { curveCounts } from "./curve-counts.ts";
import { tableCounts } from "./table-counts.ts";

/** Every count that the shared answers would show together, in tables, charts and under curves. */
export function countsOfReport(answers: readonly AnswerToShare[]): CountedSet[] {
  return answers.flatMap((answer) => [
    ...tableCounts(answer),
    ...curveCounts(answer.name, answer.answered.answer, answer.rowsOf),
  ]);
}
