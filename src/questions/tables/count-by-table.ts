import type { AnswerCell, AnswerColumn, AnswerTable } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { percent } from "../answering/wording.ts";
import { type CrossCount, shareOf } from "./cross-count.ts";

export const shares = ["of row and column", "of row", "of column", "none"] as const;
export type Shares = (typeof shares)[number];

/** The key of the rows in one cell; "all" for the totals. */
export function cellKey(row: number | "all", column: number | "all"): string {
  return `r${row}:c${column}`;
}

/** One row a group, one or more columns for each group of the second split, and the totals. */
export function countByTable(counts: CrossCount, shown: Shares, picks: PickBook): AnswerTable {
  const { by, rows } = counts;
  const lines = by.groups.map((group, i) => tableRow(counts, { shown, picks, row: i, ...group }));
  const total = tableRow(counts, { shown, picks, row: "all", label: "all", rows });
  return { columns: columnsOf(counts, shown), rows: [...lines, total] };
}

function columnsOf({ by, against }: CrossCount, shown: Shares): AnswerColumn[] {
  const number = (label: string): AnswerColumn => ({ label, kind: "number" });
  const first: AnswerColumn = { label: by.label, kind: "text" };
  if (against === undefined) {
    return [first, number("count"), ...(shown === "none" ? [] : [number("share of all")])];
  }
  return [
    first,
    ...against.groups.flatMap(({ label }) => [
      number(label),
      ...(shown.includes("row") ? [number(`${label}, share of row`)] : []),
      ...(shown.includes("column") ? [number(`${label}, share of its column`)] : []),
    ]),
    number("all"),
    ...(shown.includes("column") ? [number("all, share of all")] : []),
  ];
}

interface RowParts {
  readonly shown: Shares;
  readonly picks: PickBook;
  readonly row: number | "all";
  readonly label: string;
  readonly rows: readonly number[];
}

function tableRow(counts: CrossCount, parts: RowParts): AnswerCell[] {
  const { shown, picks, row, label, rows } = parts;
  const name = { text: label, value: label };
  const whole = shareCell(rows.length, counts.rows.length);
  const all = picks.cell(cellKey(row, "all"), label, rows);
  if (counts.against === undefined) return [name, all, ...(shown === "none" ? [] : [whole])];
  const cells = counts.against.groups.flatMap((column, j) => {
    const both = row === "all" ? column.rows : (counts.cells[row]?.[j] ?? []);
    return [
      picks.cell(cellKey(row, j), `${label}, ${column.label}`, both),
      ...(shown.includes("row") ? [shareCell(both.length, rows.length)] : []),
      ...(shown.includes("column") ? [shareCell(both.length, column.rows.length)] : []),
    ];
  });
  return [name, ...cells, all, ...(shown.includes("column") ? [whole] : [])];
}

function shareCell(part: number, whole: number): AnswerCell {
  const share = shareOf(part, whole);
  return { text: percent(share), value: share };
}
