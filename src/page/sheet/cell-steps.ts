/** A cell as it lies on the page. */
export interface PlacedCell {
  readonly name: string;
  readonly row: number;
  /** Middle of the cell, pixels from the left. */
  readonly middle: number;
}

/** The cell that a key leads to from the chosen one, or undefined where it leads nowhere. */
export function stepFrom(
  cells: readonly PlacedCell[],
  chosen: string,
  key: string,
): string | undefined {
  const at = cells.findIndex(({ name }) => name === chosen);
  const from = cells[at];
  if (key === "Home" || from === undefined) return cells[0]?.name;
  switch (key) {
    case "End":
      return cells.at(-1)?.name;
    case "ArrowLeft":
      return cells[at - 1]?.name;
    case "ArrowRight":
      return cells[at + 1]?.name;
    case "ArrowUp":
      return nearestIn(cells, from, -1);
    case "ArrowDown":
      return nearestIn(cells, from, 1);
  }
  return undefined;
}

function nearestIn(
  cells: readonly PlacedCell[],
  from: PlacedCell,
  step: number,
): string | undefined {
  const inRow = cells.filter(({ row }) => row === from.row + step);
  const distance = (cell: PlacedCell) => Math.abs(cell.middle - from.middle);
  return inRow.toSorted((one, other) => distance(one) - distance(other))[0]?.name;
}
