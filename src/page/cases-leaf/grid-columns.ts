import type { CaseColumn } from "../cases-protocol.ts";

/** A column of the grid as it is laid out. */
export interface GridColumn extends CaseColumn {
  /** Position among all columns, from 0: that of its texts. */
  readonly position: number;
  /** Pixels from the left of the rows. */
  readonly left: number;
  readonly width: number;
}

/** Width of the column of lines, which stays in sight. */
export const linesWidth = 72;

/** The columns that are not hidden, side by side. */
export function gridColumns(
  columns: readonly CaseColumn[],
  hidden: ReadonlySet<string>,
): readonly GridColumn[] {
  let left = linesWidth;
  return columns.flatMap((column, position) => {
    if (hidden.has(column.name)) return [];
    const width = Math.min(Math.max(column.label.length * 8 + 32, 96), 210);
    const placed = { ...column, position, left, width };
    left += width;
    return [placed];
  });
}

/** Width of all columns with that of the lines. */
export function widthOf(columns: readonly GridColumn[]): number {
  const last = columns.at(-1);
  return last === undefined ? linesWidth : last.left + last.width;
}

export interface Sight {
  /** Pixels that are scrolled past. */
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
