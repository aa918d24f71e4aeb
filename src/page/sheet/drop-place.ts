import type { CellPlace } from "../protocol.ts";

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Height of the zones above and below a cell that mean a row of its own: at most this. */
const mostZone = 28;

/** What it means to let a cell go at a point of another: beside it, or in a row above or below. */
export function dropPlace(
  box: Box,
  point: { readonly x: number; readonly y: number },
): Omit<CellPlace, "beside"> {
  const zone = Math.min(mostZone, (box.bottom - box.top) / 4);
  if (point.y < box.top + zone) return { side: "before", row: "new" };
  if (point.y > box.bottom - zone) return { side: "behind", row: "new" };
  return { side: point.x < (box.left + box.right) / 2 ? "before" : "behind", row: "same" };
}

/** The edge at which the cell would go in, as a line to be drawn; `row` is the whole row. */
export function dropLine(
  cell: Box,
  row: Box,
  { side, row: which }: Omit<CellPlace, "beside">,
): Box {
  if (which === "new") {
    const y = side === "before" ? row.top : row.bottom;
    return { left: row.left, right: row.right, top: y - 2, bottom: y + 2 };
  }
  const x = side === "before" ? cell.left : cell.right;
  return { left: x - 2, right: x + 2, top: cell.top, bottom: cell.bottom };
}
