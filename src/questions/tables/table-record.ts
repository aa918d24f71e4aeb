import { columnNamed, rowCount, type TableColumn } from "../../cases/table.ts";
import type { LeftOut, PickRecord } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { nothing } from "../answering/cell-text.ts";
import { cellText } from "./column-text.ts";
import type { TableValue } from "./table-value.ts";

/** Columns by which a reader finds an eye again, where the table has them. */
const finding = ["case", "patient", "eye", "operation_date", "technique", "surgeon", "state"];

/**
 * The rows of a table, able to describe themselves; behind them, the rows that were left out, of
 * which only the lines are known. `about` names the columns that the answer is about.
 */
export function tableRecord(value: TableValue, about: readonly string[]): PickRecord {
  const { table, lines, leftOut } = value;
  const columns = [...new Set([...finding, ...about])].flatMap((name): readonly TableColumn[] =>
    columnOrNone(value, name),
  );
  const shown = columns.length > 0 ? columns : table.columns.slice(0, 4);
  const allLines = [...lines, ...leftOut.flatMap((each) => each.lines)];
  const isThere = (row: number) => row < rowCount(table);
  return {
    describe: (rows) => ({
      headings: shown.map(({ label }) => label),
      rows: Array.from(rows, (row) => ({
        lines: allLines[row] ?? [],
        texts: shown.map((column) => (isThere(row) ? cellText(column, row) : nothing)),
      })),
    }),
  };
}

function columnOrNone({ table }: TableValue, name: string): readonly TableColumn[] {
  const column = columnNamed(table, name);
  return column === undefined ? [] : [column];
}

/** What was left out, each reason with the rows behind it. */
export function leftOutOfTable(value: TableValue, picks: PickBook): LeftOut[] {
  let next = value.lines.length;
  return value.leftOut.map(({ reason, lines, asked }, position) => {
    const rows = lines.map((_, i) => next + i);
    next += lines.length;
    const pick = picks.add(`out${position}`, reason, rows);
    return {
      reason,
      count: lines.length,
      ...(asked ? { asked } : {}),
      ...(pick === undefined ? {} : { pick }),
    };
  });
}
