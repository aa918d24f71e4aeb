import type { CellPlace } from "../protocol.ts";

/** Cells side by side in a row of the sheet, by name. */
export type Rows = readonly (readonly string[])[];

export type MoveKey = "ArrowLeft" | "ArrowRight" | "ArrowUp" | "ArrowDown";

/** Cells that fit into a row. */
const most = 4;

/**
 * Where a key moves a cell: past its neighbour; upwards and downwards first into a row of its own,
 * then to the nearer end of the row it comes to. Undefined where there is nowhere to go.
 */
export function placeBy(key: MoveKey, cell: string, rows: Rows): CellPlace | undefined {
  const at = rows.findIndex((row) => row.includes(cell));
  const row = rows[at];
  if (row === undefined) return undefined;
  if (key === "ArrowLeft") return past(row[row.indexOf(cell) - 1], "before");
  if (key === "ArrowRight") return past(row[row.indexOf(cell) + 1], "behind");
  const up = key === "ArrowUp";
  const others = row.filter((other) => other !== cell);
  if (others[0] !== undefined) {
    return { beside: others[0], side: up ? "before" : "behind", row: "new" };
  }
  return into(rows[up ? at - 1 : at + 1], up);
}

function past(neighbour: string | undefined, side: CellPlace["side"]): CellPlace | undefined {
  return neighbour === undefined ? undefined : { beside: neighbour, side, row: "same" };
}

/** Into the row above at its end, into the row below at its beginning; past a full row. */
function into(row: readonly string[] | undefined, up: boolean): CellPlace | undefined {
  const beside = up ? row?.at(-1) : row?.[0];
  if (row === undefined || beside === undefined) return undefined;
  if (row.length >= most) return { beside, side: up ? "before" : "behind", row: "new" };
  return { beside, side: up ? "behind" : "before", row: "same" };
}
