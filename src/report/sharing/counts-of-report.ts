import type { Answered } from "../../questions/answer.ts";
import type { CountedSet } from "../disclosure/counted-set.ts";
import { type CellNature, cellNatures } from "./cell-nature.ts";
import { curveCounts } from "./curve-counts.ts";
import { type PickedRows, pickedRows } from "./picked-rows.ts";
import { tableCounts } from "./table-counts.ts";

/** An answer that is to be shared, with what its cells are. */
export interface AnswerToShare {
  readonly name: string;
  readonly answered: Answered;
  readonly rowsOf: PickedRows;
  readonly natures: readonly (readonly CellNature[])[];
}

export function answerToShare(name: string, answered: Answered): AnswerToShare {
  const rowsOf = pickedRows(answered);
  return { name, answered, rowsOf, natures: cellNatures(answered.answer.table, rowsOf) };
}

/** Every count that the shared answers would show together, in tables, charts and under curves. */
export function countsOfReport(answers: readonly AnswerToShare[]): CountedSet[] {
  return answers.flatMap(({ name, answered, natures, rowsOf }) => [
    ...tableCounts(name, natures, rowsOf),
    ...curveCounts(name, answered.answer, rowsOf),
  ]);
}
