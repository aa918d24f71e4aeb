import { lineCount, linesOnPages } from "./lines-on-pages.ts";
import type { FittedTable, Size, SlideTable } from "./slide.ts";
import { linesHeight, linesOf, longestWord, textInches } from "./text-fit.ts";

/** The white around the text of a cell, inches on each side. */
export const cellMargin = { across: 0.1, down: 0.04 } as const;
const sizes = [14, 12, 11, 10] as const;
const smallest = 9;
/** Of a column beyond its widest text, inches. */
const mostAir = 0.5;

/**
 * A table cut into as many as it takes for each to fit in the room: in the largest letters in which
 * no word is broken, over several of its rows, and where its columns are too many over several of
 * these, each with the first.
 */
export function fitTable(table: SlideTable, room: Size): FittedTable[] {
  const largest = sizes.find((size) => leastWidth(table, size) <= room.width);
  const points = largest ?? smallest;
  return columnGroups(table, { points, width: room.width }).flatMap((part) =>
    fitRows(part, { points, room }),
  );
}

/** The width in which no cell takes a second line, at a size of letters. */
export function widthInLines(table: SlideTable, points: number): number {
  return sum(table.columns.map((_, at) => measured(table, at, points).whole));
}

export function tableHeight({ heights }: FittedTable): number {
  return sum(heights);
}

export function tableWidth({ widths }: FittedTable): number {
  return sum(widths);
}

interface Fit {
  readonly points: number;
  readonly room: Size;
}

function fitRows(table: SlideTable, { points, room }: Fit): FittedTable[] {
  const widths = columnWidths(table, { points, width: room.width });
  const lined = (texts: readonly string[], isBold: boolean) =>
    texts.map((text, at) =>
      linesOf(text, (widths[at] ?? 0) - 2 * cellMargin.across, { points, isBold }),
    );
  const height = (lines: number) => linesHeight(lines, points) + 2 * cellMargin.down;
  const head = lined(
    table.columns.map(({ label }) => label),
    true,
  );
  const headHeight = height(lineCount(head));
  const pages = linesOnPages(
    table.rows.map((row) => lined(row, false)),
    { room: room.height - headHeight, height },
  );
  return pages.map((rows) => ({
    ...{ columns: table.columns, points, widths },
    rows: rows.map((row) => row.map((lines) => lines.join("").trimEnd())),
    heights: [headHeight, ...rows.map((row) => height(lineCount(row)))],
  }));
}

interface ColumnWidths {
  /** Without breaking a word, inches. */
  readonly least: number;
  /** Without a second line. */
  readonly whole: number;
}

/** A heading may take two lines, and is as long as that if nothing below it is longer. */
function measured({ columns, rows }: SlideTable, at: number, points: number): ColumnWidths {
  const head = columns[at]?.label ?? "";
  const bold = { points, isBold: true };
  const widest = (width: typeof textInches) =>
    Math.max(...rows.map((row) => width(row[at] ?? "", { points })));
  const air = 2 * cellMargin.across + 0.01;
  const least = Math.max(longestWord(head, bold), widest(longestWord));
  const twoLines = textInches(head, bold) / 2 + longestWord(head, bold) / 2;
  const whole = Math.max(least, Math.min(twoLines, textInches(head, bold)), widest(textInches));
  return { least: least + air, whole: whole + air };
}

function leastWidth(table: SlideTable, points: number): number {
  return sum(table.columns.map((_, at) => measured(table, at, points).least));
}

interface Across {
  readonly points: number;
  readonly width: number;
}

/** What each column would like, no more than its fair share of the room, and never less than it needs. */
function columnWidths(table: SlideTable, { points, width }: Across): number[] {
  const columns = table.columns.map((_, at) => measured(table, at, points));
  const whole = sum(columns.map((column) => column.whole));
  if (whole <= width) {
    const air = Math.min(mostAir, (width - whole) / columns.length);
    return columns.map((column) => column.whole + air);
  }
  const least = sum(columns.map((column) => column.least));
  if (least > width) return columns.map((column) => (column.least * width) / least);
  const upTo = (share: number) =>
    columns.map((column) => Math.min(column.whole, Math.max(column.least, share)));
  let [low, high] = [0, width];
  for (let step = 0; step < 50; step += 1) {
    const middle = (low + high) / 2;
    if (sum(upTo(middle)) <= width) low = middle;
    else high = middle;
  }
  return upTo(low);
}

/** The table whole, or parts of it of as many columns as fit, each beginning with the first. */
function columnGroups(table: SlideTable, { points, width }: Across): SlideTable[] {
  const least = table.columns.map((_, at) => measured(table, at, points).least);
  const [first = 0, ...rest] = least;
  if (sum(least) <= width || rest.length < 2) return [table];
  const groups: number[][] = [];
  let filled = Number.POSITIVE_INFINITY;
  for (const [at, column] of rest.entries()) {
    if (filled + column > width) {
      groups.push([0]);
      filled = first;
    }
    groups.at(-1)?.push(at + 1);
    filled += column;
  }
  return groups.map((kept) => ({
    columns: kept.flatMap((at) => table.columns[at] ?? []),
    rows: table.rows.map((row) => kept.map((at) => row[at] ?? "")),
  }));
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, each) => total + each, 0);
}
