import type { AnswerCell, AnswerColumn, AnswerTable } from "../questions/answer.ts";
import { csvText } from "./csv-text.ts";

/** An answer's table as CSV: unrounded numbers, an interval as two columns, marks left out. */
export function tableCsv(table: AnswerTable): string {
  const lines = [
    table.columns.flatMap(headings),
    ...table.rows.map((row) =>
      row.flatMap((cell, position) => fields(cell, table.columns[position] ?? textColumn)),
    ),
  ];
  return csvText(lines);
}

const textColumn: AnswerColumn = { label: "", kind: "text" };

function headings({ label, kind }: AnswerColumn): string[] {
  if (kind === "mark") return [];
  const name = label === "" ? "group" : label;
  const limits = [`${name}, lower`, `${name}, upper`];
  if (kind === "interval") return limits;
  return kind === "estimate" ? [name, ...limits] : [name];
}

function fields(cell: AnswerCell, { kind }: AnswerColumn): (number | string)[] {
  if (kind === "mark") return [];
  const limits = [field(cell.limits?.lower ?? null), field(cell.limits?.upper ?? null)];
  if (kind === "interval") return limits;
  return kind === "estimate" ? [field(cell.value), ...limits] : [field(cell.value)];
}

function field(value: number | string | null): number | string {
  return value ?? "";
}
