/** The cells of a row as lines. */
export type LinedRow = readonly (readonly string[])[];

/**
 * Rows put on as few pages as they fit on, filled alike, so that no row stands alone on the last; a
 * row of more lines than a page holds is carried on to the next. `height` is of a row of a number
 * of lines, in the unit of `room`.
 */
export function linesOnPages(
  rows: readonly LinedRow[],
  { room, height }: { readonly room: number; readonly height: (lines: number) => number },
): LinedRow[][] {
  const most = Math.max(1, linesThatFit(room, height));
  const cut = rows.flatMap((row) => cutRow(row, most));
  const heights = cut.map((row) => height(lineCount(row)));
  const fewest = pages(heights, room);
  const steps = Array.from({ length: 20 }, (_, step) => (room * (step + 1)) / 20);
  const ends = steps.map((limit) => pages(heights, limit));
  const filled = ends.find(({ length }) => length === fewest.length) ?? fewest;
  return filled.map((end, page) => cut.slice(filled[page - 1] ?? 0, end));
}

/** How many lines the highest cell of a row has. */
export function lineCount(row: LinedRow): number {
  return Math.max(1, ...row.map(({ length }) => length));
}

function linesThatFit(room: number, height: (lines: number) => number): number {
  const single = height(2) - height(1);
  return 1 + Math.floor((room - height(1)) / single + 1e-9);
}

function cutRow(row: LinedRow, most: number): LinedRow[] {
  const parts = Math.ceil(lineCount(row) / most);
  return Array.from({ length: parts }, (_, part) =>
    row.map((lines) => lines.slice(part * most, (part + 1) * most)),
  );
}

/** Where each page ends among the rows; every page holds at least one. */
function pages(heights: readonly number[], limit: number): number[] {
  const ends: number[] = [];
  let filled = 0;
  for (const [at, height] of heights.entries()) {
    if (filled > 0 && filled + height > limit + 1e-9) {
      ends.push(at);
      filled = 0;
    }
    filled += height;
  }
  return heights.length === 0 ? [] : [...ends, heights.length];
}
