import type { CellView } from "../protocol.ts";
import type { PlacedCell } from "./cell-steps.ts";

type Cell = HTMLElement & { readonly view: CellView };

/**
 * The cells of a cell's own row of the sheet and of the rows next to it, as they lie on the page.
 * Only these are laid out: a long sheet is walked as fast as a short one.
 */
export function placedAround(cell: HTMLElement): readonly PlacedCell[] {
  const row = cell.closest(".row");
  const around = [nextRow(row, "previous"), row, nextRow(row, "next")];
  const cells = around.flatMap((each) => [...(each?.querySelectorAll<Cell>("sheet-cell") ?? [])]);
  const boxes = cells.map((each) => each.getBoundingClientRect());
  const tops = [...new Set(boxes.map(({ top }) => top))];
  return cells.map(({ view }, i) => {
    const { left = 0, right = 0, top = 0 } = boxes[i] ?? {};
    return { name: view.name, row: tops.indexOf(top), middle: (left + right) / 2 };
  });
}

function nextRow(row: Element | null, way: "previous" | "next"): Element | null {
  let next = row;
  do next = next?.[`${way}ElementSibling`] ?? null;
  while (next !== null && !next.classList.contains("row"));
  return next;
}
