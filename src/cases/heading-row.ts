import { cellOf, type FileRows } from "./read-rows.ts";
import { plainNumber } from "./values/read-numbers.ts";
import { writtenDay } from "./values/written-day.ts";

/** Titles above the headings are at most this many rows. */
const searched = 20;

/**
 * The row that holds the headings, or undefined where there is none. It is the row with the most
 * known headings (two at least); else the first of nearly full width, if none of it is a number
 * or a date. Rows above it are titles.
 */
export function headingRow(
  rows: FileRows,
  isKnownHeading: (written: string) => boolean,
): number | undefined {
  const count = Math.min(rows.lines.length, searched);
  let best = -1;
  let bestKnown = 1;
  for (let row = 0; row < count; row++) {
    const known = new Set(valuesOf(rows, row).filter(isKnownHeading)).size;
    if (known > bestKnown) [best, bestKnown] = [row, known];
  }
  return best >= 0 ? best : firstWideRow(rows, count);
}

/** The values of a row. */
export function valuesOf(rows: FileRows, row: number): readonly string[] {
  const start = rows.starts[row]!;
  const length = rows.starts[row + 1]! - start;
  return Array.from({ length }, (_, i) => cellOf(rows, start + i));
}

function firstWideRow(rows: FileRows, count: number): number | undefined {
  const width = usualWidth(rows);
  for (let row = 0; row < count; row++) {
    const filled = valuesOf(rows, row).filter((value) => value !== "");
    if (filled.length * 2 > width) return filled.some(isData) ? undefined : row;
  }
  return undefined;
}

function usualWidth(rows: FileRows): number {
  const tally = new Map<number, number>();
  for (let row = 0; row < rows.lines.length; row++) {
    const width = rows.starts[row + 1]! - rows.starts[row]!;
    tally.set(width, (tally.get(width) ?? 0) + 1);
  }
  let usual = 0;
  for (const [width, count] of tally) {
    const most = tally.get(usual) ?? 0;
    if (count > most || (count === most && width > usual)) usual = width;
  }
  return usual;
}

function isData(value: string): boolean {
  return plainNumber(value, true) !== null || writtenDay(value).shape !== "unknown";
}
