import type { GridPlace } from "./grid-place.ts";

/** A rectangle of values, both ends in it. */
export interface MarkedRange {
  readonly rows: readonly [from: number, to: number];
  readonly columns: readonly [from: number, to: number];
}

/** What lies between two corners, without headings and lines. */
export function rangeBetween(one: GridPlace, other: GridPlace): MarkedRange {
  const between = (first: number, second: number) =>
    [Math.max(1, Math.min(first, second)), Math.max(first, second)] as const;
  return {
    rows: between(one.row, other.row),
    columns: between(one.column, other.column),
  };
}

export function isInRange({ rows, columns }: MarkedRange, { row, column }: GridPlace): boolean {
  return row >= rows[0] && row <= rows[1] && column >= columns[0] && column <= columns[1];
}
