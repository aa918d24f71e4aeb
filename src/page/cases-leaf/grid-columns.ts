import type { CaseColumn } from "../cases-protocol.ts";
import type { CasesView } from "../protocol.ts";

/** A column of the grid as it is laid out. */
export interface GridColumn extends CaseColumn {
  /** Position among all columns, from 0: that of its texts. */
  readonly position: number;
  /** From the left of the rows; as the width in pixels where text has its usual size. */
  readonly left: number;
  readonly width: number;
}

/** Width of the column of lines, which stays in sight. */
export const linesWidth = 72;

/** The columns of the cases; without names where the worker told none. */
export function columnsOf({ leaf, headings }: CasesView): readonly CaseColumn[] {
  return leaf?.columns ?? headings.map((label) => ({ name: label, label, kind: "text" }));
}

/** How the reader wants the columns. */
export interface ColumnChoice {
  readonly hidden: ReadonlySet<string>;
  /** Names in their order; columns that are not named come behind, as in the file. */
  readonly order: readonly string[];
}

/** The columns that are not hidden, side by side. */
export function gridColumns(
  columns: readonly CaseColumn[],
  { hidden, order }: ColumnChoice,
): readonly GridColumn[] {
  let left = linesWidth;
  return inOrder(columns, order).flatMap(({ column, position }) => {
    if (hidden.has(column.name)) return [];
    const width = Math.min(Math.max(column.label.length * 8 + 32, 96), 210);
    const placed = { ...column, position, left, width };
    left += width;
    return [placed];
  });
}

function inOrder(columns: readonly CaseColumn[], order: readonly string[]) {
  const ranks = new Map(order.map((name, rank) => [name, rank]));
  const rankOf = (name: string) => ranks.get(name) ?? order.length;
  return columns
    .map((column, position) => ({ column, position }))
    .sort((one, other) => rankOf(one.column.name) - rankOf(other.column.name));
}

/**
 * Names of all columns with the shown one at `from` set where the shown one at `to` stands.
 * Hidden columns keep their neighbours.
 */
export function orderMoved(
  all: readonly CaseColumn[],
  shown: readonly GridColumn[],
  {
    order,
    from,
    to,
  }: { readonly order: readonly string[]; readonly from: number; readonly to: number },
): readonly string[] {
  const moved = shown[from]?.name;
  const beside = shown[to]?.name;
  const names = inOrder(all, order).map(({ column }) => column.name);
  if (moved === undefined || beside === undefined) return names;
  const rest = names.filter((name) => name !== moved);
  rest.splice(rest.indexOf(beside) + (to > from ? 1 : 0), 0, moved);
  return rest;
}

/** Width of all columns with that of the lines. */
export function widthOf(columns: readonly GridColumn[]): number {
  const last = columns.at(-1);
  return last === undefined ? linesWidth : last.left + last.width;
}

export interface Sight {
  /** Pixels that are scrolled past, as at the usual size of text. */
  readonly from: number;
  readonly width: number;
}

/** Positions among the given columns of those in sight, and of one to each side. */
export function columnsInSight(columns: readonly GridColumn[], sight: Sight): [number, number] {
  const to = sight.from + sight.width;
  const first = columns.findIndex(({ left, width }) => left + width > sight.from + linesWidth);
  const behind = columns.findIndex(({ left }) => left > to);
  const last = behind < 0 ? columns.length : behind;
  return [Math.max(0, first - 1), Math.min(columns.length, last + 1)];
}
