import type { Answered } from "../../questions/answer.ts";
import { type CellNature, cellNatures } from "./cell-nature.ts";
import { type PickedRows, pickedRows } from "./picked-rows.ts";
import type { RowsOnLines } from "./rows-on-lines.ts";

/** An answer that is to be shared, with what its cells are. */
export interface AnswerToShare {
  readonly name: string;
  readonly answered: Answered;
  readonly rowsOf: PickedRows;
  readonly natures: readonly (readonly CellNature[])[];
}

/** Undefined where rows of several files cannot be told apart in it. */
export function answerToShare(
  name: string,
  answered: Answered,
  rows?: RowsOnLines,
): AnswerToShare | undefined {
  const rowsOf = pickedRows(answered, rows);
  if (rowsOf === undefined) return undefined;
  return { name, answered, rowsOf, natures: cellNatures(answered.answer.table, rowsOf) };
}
