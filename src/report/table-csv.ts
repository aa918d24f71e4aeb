import type { AnswerCell, AnswerColumn, AnswerTable } from "../questions/answer.ts";

/**
 * An answer's table as CSV (RFC 4180): unrounded numbers, an interval as two columns, drawn marks
 * left out. A text that a spreadsheet would take for a formula is preceded by an apostrophe.
 */
export function tableCsv(table: AnswerTable): string {
  const lines = [
    table.columns.flatMap(headings),
    ...table.rows.map((row) =>
      row.flatMap((cell, position) => fields(cell, table.columns[position] ?? textColumn)),
    ),
  ];
  return lines.map((line) => `${line.map(quoted).join(",")}\r\n`).join("");
}

const textColumn: AnswerColumn = { label: "", kind: "text" };

function headings({ label, kind }: AnswerColumn): string[] {
  if (kind === "mark") return [];
  const name = label === "" ? "group" : label;
  const limits = [`${name}, lower`, `${name}, upper`];
  if (kind === "interval") return limits;
  return kind === "estimate" ? [name, ...limits] : [name];
}

function fields(cell: AnswerCell, { kind }: AnswerColumn): string[] {
  if (kind === "mark") return [];
  const limits = [field(cell.limits?.lower ?? null), field(cell.limits?.upper ?? null)];
  if (kind === "interval") return limits;
  return kind === "estimate" ? [field(cell.value), ...limits] : [field(cell.value)];
}

function field(value: number | string | null): string {
  if (value === null) return "";
  if (typeof value === "number") return String(value);
  return /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
}

function quoted(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
