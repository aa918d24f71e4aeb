import type { AnswerCell, AnswerTable } from "../../questions/answer.ts";
import type { PickedRows } from "./picked-rows.ts";

/**
 * `label`: names the row. `count`: as many as the rows behind it. `none`: 0, or nothing at all.
 * `loose count`: a whole number without rows behind it, which nothing can protect.
 * `figure`: what is worked out from counts, words among them.
 */
export type CellNature =
  | { readonly is: "label" | "none" | "loose count" | "figure" }
  | { readonly is: "count"; readonly pick: string };

/** The nature of every cell, in the table's shape. */
export function cellNatures(table: AnswerTable, rowsOf: PickedRows): CellNature[][] {
  const labels = labelColumns(table);
  return table.rows.map((row) =>
    row.map((cell, column) => (column < labels ? { is: "label" } : natureOf(cell, rowsOf))),
  );
}

/** The columns of words that a table begins with. */
export function labelColumns({ columns }: AnswerTable): number {
  const others = columns.findIndex(({ kind }) => kind !== "text");
  return others === -1 ? columns.length : others;
}

function natureOf(cell: AnswerCell, rowsOf: PickedRows): CellNature {
  const { text, pick, mark } = cell;
  if (mark === undefined && (text === "" || text === "–" || text === "0")) return { is: "none" };
  if (!/^[\d,]+$/.test(text)) return { is: "figure" };
  const shown = Number(text.replaceAll(",", ""));
  if (pick === undefined || rowsOf(pick)?.size !== shown) return { is: "loose count" };
  return { is: "count", pick };
}
