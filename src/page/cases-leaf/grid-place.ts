/** A cell of the grid: row 0 holds the headings, column 0 the lines. */
export interface GridPlace {
  readonly row: number;
  readonly column: number;
}

export interface GridSize {
  /** Rows below the headings. */
  readonly rows: number;
  /** Columns beside the lines. */
  readonly columns: number;
  /** Rows that a page key moves by. */
  readonly pageRows: number;
}

type Keys = Pick<KeyboardEvent, "key" | "ctrlKey">;

/** By how many columns an arrow goes to the side; undefined for any other key. */
export function stepAside(key: string): number | undefined {
  if (key === "ArrowLeft") return -1;
  return key === "ArrowRight" ? 1 : undefined;
}

/** Where a key leads, as in the grid pattern of ARIA; undefined for any other key. */
export function movedPlace(from: GridPlace, keys: Keys, size: GridSize): GridPlace | undefined {
  const moved = stepped(from, keys, size);
  return (
    moved && {
      row: Math.min(Math.max(moved.row, 0), size.rows),
      column: Math.min(Math.max(moved.column, 0), size.columns),
    }
  );
}

function stepped(
  { row, column }: GridPlace,
  { key, ctrlKey }: Keys,
  size: GridSize,
): GridPlace | undefined {
  switch (key) {
    case "ArrowUp":
      return { row: row - 1, column };
    case "ArrowDown":
      return { row: row + 1, column };
    case "ArrowLeft":
      return { row, column: column - 1 };
    case "ArrowRight":
      return { row, column: column + 1 };
    case "PageUp":
      return { row: row - size.pageRows, column };
    case "PageDown":
      return { row: row + size.pageRows, column };
    case "Home":
      return { row: ctrlKey ? 0 : row, column: 0 };
    case "End":
      return { row: ctrlKey ? size.rows : row, column: size.columns };
  }
  return undefined;
}
