import { type Cells, headings } from "./cells.ts";

/** The heading line. */
export function headingLine(): string {
  return lineOf(headings.map(([, heading]) => heading));
}

/** One row as a line, without its line break. */
export function rowLine(cells: Cells): string {
  return lineOf(headings.map(([field]) => cells[field] ?? ""));
}

/** A row in which one cell was lost, so that all cells after it have moved up. */
export function shortRowLine(cells: Cells, lostField: string): string {
  const kept = headings.filter(([field]) => field !== lostField);
  return lineOf(kept.map(([field]) => cells[field] ?? ""));
}

/** RFC 4180: quoted where a comma, a quotation mark or a line break would mislead. */
export function lineOf(cells: readonly string[]): string {
  return cells.map(quoted).join(",");
}

function quoted(cell: string): string {
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
