import { formatProblem } from "../problem/format-problem.ts";
import type { CellState } from "../recalculation/cell-state.ts";

/** Why a cell has no answer, in words. */
export function whyNoAnswer(state: CellState): string {
  if (state.status === "at fault") return state.problems.map(formatProblem).join("\n");
  if (state.status === "waiting") return `waits for ${state.waitsFor.join(", ")}`;
  return "was not worked out";
}
