import type { TableColumn } from "../../cases/table.ts";
import type { AnswerCell } from "../answer.ts";
import { nothing, valueText } from "../answering/cell-text.ts";

/** What a column holds in a row, as a reader would write it; a dash where it is missing. */
export function cellText(column: TableColumn, row: number): string {
  const held = column.values[row] ?? null;
  if (held === null) return nothing;
  return valueText(held, column.kind === "day" ? "day" : "number");
}

/** The same as a cell of an answer's table, with the value behind it. */
export function tableCell(column: TableColumn, row: number): AnswerCell {
  const held = column.values[row] ?? null;
  const text = cellText(column, row);
  const value = typeof held === "number" && column.kind !== "day" ? held : text;
  return { text, value: held === null ? null : value };
}
