import type { LeftOutRow } from "./case-reading.ts";
import { foldSpelling } from "./fold-spelling.ts";
import { valuesOf } from "./heading-row.ts";
import { cellOf, type FileRows } from "./read-rows.ts";

export type LeftOutReason = Omit<LeftOutRow, "line">;

const summaries: ReadonlySet<string> = new Set(
  [
    "total",
    "totals",
    "grand total",
    "subtotal",
    "sum",
    "mean",
    "average",
    "median",
    "count",
    "n",
  ].map(foldSpelling),
);
/** Rows at the end that can stand below the table. */
const searched = 5;

/** Why a row near the end is no case: a line of totals, or a remark under the table. */
export function lineBelowTable(
  rows: FileRows,
  row: number,
  headings: readonly string[],
): LeftOutReason | undefined {
  for (let after = row; after < rows.lines.length; after++) {
    if (rows.lines.length - row > searched || !isBelowTable(rows, after, headings))
      return undefined;
  }
  const reason = "a line of totals or a remark below the table";
  return { code: "line-below-table", reason };
}

function isBelowTable(rows: FileRows, row: number, headings: readonly string[]): boolean {
  const values = valuesOf(rows, row);
  const filled = values.filter((value) => value !== "");
  const first = foldSpelling(filled[0]!);
  if (summaries.has(first)) return filled.length < headings.length || headings.length > 1;
  const isRemark = filled.length === 1 && values[0] !== "" && /\p{L}.*\s/u.test(values[0]!);
  return isRemark && values.length === 1 && headings.length >= 4;
}

/** Why a row is no case: files put together one below the other repeat their headings. */
export function repeatsHeadings(
  rows: FileRows,
  row: number,
  headings: readonly string[],
): LeftOutReason | undefined {
  const start = rows.starts[row]!;
  if (cellOf(rows, start) !== headings[0]) return undefined;
  const isSame = headings.every((heading, i) => cellOf(rows, start + i) === heading);
  if (!isSame || rows.starts[row + 1]! - start < headings.length) return undefined;
  return { code: "headings-again", reason: "the headings again, inside the table" };
}
