import { columnNamed, rowCount, type TableColumn } from "../../cases/table.ts";
import type { AnswerColumn, AnswerTable } from "../answer.ts";
import { count, counted } from "../answering/wording.ts";
import { tableCell } from "./column-text.ts";
import { oneRow } from "./table-answer.ts";
import type { TableValue } from "./table-value.ts";

export interface PreviewOptions {
  /** Names of the columns to show, in this order; all of the table where left out. */
  readonly columns?: readonly string[];
  /** At most so many rows and columns; 8 of each where left out. */
  readonly rows?: number;
  readonly width?: number;
}

/** The first rows and columns of a table as it would be drawn on the sheet. */
export function tablePreview(value: TableValue, options: PreviewOptions = {}): AnswerTable {
  const { rows = 8, width = 8 } = options;
  const columns = columnsShown(value, options.columns).slice(0, width);
  const shown = Math.min(rows, rowCount(value.table));
  return {
    columns: columns.map(
      ({ label, kind, unit }): AnswerColumn => ({
        label: unit === undefined ? label : `${label} (${unit})`,
        kind: kind === "number" || kind === "acuity" ? "number" : "text",
      }),
    ),
    rows: Array.from({ length: shown }, (_, row) =>
      columns.map((column) => tableCell(column, row)),
    ),
  };
}

/** "442 cases in 31 columns; 12 left out: 8 not: age >= 40; 4 not recorded whether age >= 40." */
export function tableInWords(value: TableValue): string {
  const { table, leftOut, remarks } = value;
  const rows = counted(rowCount(table), oneRow(value));
  const size = `${rows} in ${counted(table.columns.length, "column")}`;
  const out = leftOut.map(({ reason, lines }) => `${count(lines.length)} ${reason}`);
  const left = out.length === 0 ? "none left out" : `left out: ${out.join("; ")}`;
  return [`${size}; ${left}.`, ...remarks.map(({ text }) => text)].join(" ");
}

function columnsShown({ table }: TableValue, names?: readonly string[]): readonly TableColumn[] {
  if (names === undefined) return table.columns;
  return names.flatMap((name) => columnNamed(table, name) ?? []);
}
