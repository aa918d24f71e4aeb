import type { Value } from "../../formula/value.ts";
import type { Answered } from "../../questions/answer.ts";
import type { CellState } from "../../recalculation/cell-state.ts";
import type { ReportedCell, ReportInput } from "../../report/report-input.ts";

/**
 * A report as it crosses from the worker to the window: of answers the answer alone, of other
 * things the plain parts. Whatever files are made from it are the same as from the whole.
 */
export function crossingReport(input: ReportInput): ReportInput {
  return { ...input, cells: input.cells.map(crossingCell) };
}

/** The same of one cell. */
export function crossingCell(cell: ReportedCell): ReportedCell {
  return { ...cell, state: crossingState(cell.state) };
}

function crossingState(state: CellState): CellState {
  return state.status === "current" ? { ...state, value: crossingValue(state.value) } : state;
}

function crossingValue(value: Value): Value {
  if (value.kind === "list") return { ...value, items: value.items.map(crossingValue) };
  if (value.kind !== "thing") return value;
  const parts = new Map<string, Value>();
  for (const [name, part] of value.parts) if ("kind" in part) parts.set(name, crossingValue(part));
  const content =
    value.of === "answer" ? { answer: (value.content as Answered).answer } : undefined;
  return { ...value, parts, content };
}
