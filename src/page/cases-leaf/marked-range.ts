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

/** A table of texts parted by tabs, as other programs read and write it. */
export function tabbedText(texts: readonly (readonly string[])[]): string {
  return texts.map((row) => row.map(plain).join("\t")).join("\n");
}

/** A missing value is copied as nothing. */
function plain(text: string): string {
  return text === "–" ? "" : text.replace(/[\t\r\n]+/g, " ");
}

/** The inverse of `tabbedText`, for texts from anywhere; a last line end is none of its own. */
export function textsOf(tabbed: string): readonly (readonly string[])[] {
  return tabbed
    .replace(/(\r\n|\r|\n)$/, "")
    .split(/\r\n|\r|\n/)
    .map((line) => line.split("\t").map((text) => text.trim()));
}
