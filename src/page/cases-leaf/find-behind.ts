import type { CasesReplies, TextWanted } from "../cases-protocol.ts";
import type { Host } from "../host/host.ts";
import type { CaseGrid } from "./case-grid.ts";

type Sought = Pick<TextWanted, "text" | "arrangement">;

/** The next place of a text among the columns of the grid, behind the place that it stands at. */
export function findBehind(
  { columns, at }: Pick<CaseGrid, "columns" | "at">,
  sought: Sought,
  host: Host,
): Promise<CasesReplies["find in cases"]> {
  const behind = { row: Math.max(0, at.row - 1), column: at.row === 0 ? -1 : at.column - 1 };
  const wanted = { ...sought, columns: columns.map(({ name }) => name), behind };
  return host.ask({ ask: "find in cases", wanted });
}
