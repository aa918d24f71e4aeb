import type { Answered } from "../../questions/answer.ts";
import { type CellNature, cellNatures } from "./cell-nature.ts";
import { type PickedRows, pickedRows } from "./picked-rows.ts";

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
