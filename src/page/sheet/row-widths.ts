import { columnsOfRow } from "../../notebook/cell-width.ts";
import type { CellView } from "../protocol.ts";

/** The narrowest that a cell can be made by hand, in columns of its row. */
const leastColumns = 2;

/** Columns that cells are given, by name, in place of what the notebook says: while one is drawn. */
export type Widths = ReadonlyMap<string, number>;

/** How the cells of a row share its twelve columns, as tracks for `grid-template-columns`. */
export function rowWidths(cells: readonly (CellView | undefined)[], given: Widths = new Map()) {
  const shares = sharesOf(cells, given);
  const left = columnsOfRow - sum(shares);
  const tracks = left > 0.01 ? [...shares, left] : shares;
  return tracks.map((share) => `minmax(0, ${share.toFixed(2)}fr)`).join(" ");
}

/** The same in whole columns, from 1. */
export function rowColumns(cells: readonly (CellView | undefined)[]): readonly number[] {
  const shares = sharesOf(cells, new Map());
  const total = Math.max(columnsOfRow, sum(shares));
  const edges = shares.map((_, i) =>
    Math.round((sum(shares.slice(0, i + 1)) * columnsOfRow) / total),
  );
  return edges.map((edge, i) => Math.max(1, edge - (edges[i - 1] ?? 0)));
}

/**
 * The columns that cells are given when one of them becomes `columns` wide: its neighbour behind
 * it, or else before it, gives or takes the difference, unless the row has room to spare. Empty
 * where nothing changes.
 */
export function resized(cells: readonly CellView[], name: string, columns: number): Widths {
  const at = cells.findIndex((cell) => cell.name === name);
  const now = rowColumns(cells);
  const [own, other] = [now[at] ?? 0, at + 1 < cells.length ? at + 1 : at - 1];
  const spare = columnsOfRow - sum(now);
  const lendable = spare + Math.max(0, (now[other] ?? 0) - leastColumns);
  const most = own + (other < 0 ? spare : lendable);
  const wanted = Math.min(Math.max(Math.round(columns), leastColumns), most);
  if (wanted === own) return new Map();
  const taken = Math.max(0, wanted - own - spare) + Math.min(0, wanted - own);
  const neighbour = cells[other];
  const its = neighbour === undefined ? [] : [[neighbour.name, (now[other] ?? 0) - taken] as const];
  return new Map([[name, wanted], ...its]);
}

/** In columns of the row: as it is given, the rest by what each cell has to show. */
function sharesOf(cells: readonly (CellView | undefined)[], given: Widths): readonly number[] {
  const fixed = cells.map((cell) => cell && (given.get(cell.name) ?? cell.columns));
  const wants = cells.map((cell) => (cell === undefined ? 2 : widthWanted(cell)));
  const least = Math.max(...wants) / 3;
  const free = wants.map((want, i) => (fixed[i] === undefined ? Math.max(want, least) : 0));
  const count = free.filter((want) => want > 0).length;
  const left = Math.max(columnsOfRow - sum(fixed.map((columns) => columns ?? 0)), count);
  return fixed.map((columns, i) => columns ?? (left * (free[i] ?? 0)) / sum(free));
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}

function widthWanted(cell: CellView): number {
  const { answer, setting } = cell;
  if (setting?.type === "choice") {
    return (14 + setting.options.reduce((length, option) => length + option.length + 4, 0)) / 12;
  }
  if (answer === undefined) return 2;
  if (answer.chart !== undefined) return 3;
  return answer.table.columns.length > 4 ? 3 : 2;
}
