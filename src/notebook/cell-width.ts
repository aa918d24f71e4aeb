import type { Problem } from "../problem/problem.ts";

/** Columns that a row of the sheet is parted into. */
export const columnsOfRow = 12;

/** A working never holds these words in this order, so that such a line is never part of one. */
const pattern = /^([ \t]*)across[ \t]+(\S+)[ \t]+of[ \t]+12[ \t]*$/;

/** Whether a line under a working is meant as the width of its cell, well written or not. */
export function isWidthLine(text: string): boolean {
  return pattern.test(text);
}

/** The columns that a line which `isWidthLine` gives; `line` is its index from 0. */
export function readWidth(
  text: string,
  line: number,
): { readonly columns: number } | { readonly problem: Problem } {
  const [, indent = "", written = ""] = pattern.exec(text) ?? [];
  const columns = /^\d{1,2}$/.test(written) ? Number(written) : 0;
  if (isColumns(columns)) return { columns };
  return {
    problem: {
      code: "width-unreadable",
      severity: "query",
      place: { line: line + 1, column: indent.length + 1 },
      message: "This width cannot be read, so the cell takes what room the others leave.",
      found: text.trim(),
      expected: "from 1 to 12 columns, such as across 7 of 12",
      remedy: "write across, the number of columns, of 12",
    },
  };
}

/** Whether a cell can be so many columns wide. */
export function isColumns(columns: number): boolean {
  return Number.isInteger(columns) && columns >= 1 && columns <= columnsOfRow;
}
