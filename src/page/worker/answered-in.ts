import type { Answered } from "../../questions/answer.ts";
import type { CellState } from "../../recalculation/cell-state.ts";
import type { Sheet } from "../../recalculation/sheet.ts";

/** The answer of a cell with the rows behind it, where it has one now. */
export function answeredIn(sheet: Sheet, cell: string): Answered | undefined {
  return sheet.names().includes(cell) ? answeredOf(sheet.state(cell)) : undefined;
}

/** The answer that a state holds. */
export function answeredOf(state: CellState): Answered | undefined {
  if (state.status !== "current" || state.value.kind !== "thing") return undefined;
  return state.value.of === "answer" ? (state.value.content as Answered) : undefined;
}
