import type { CellView } from "../protocol.ts";

/** How the cells of a row share its width: shares for `grid-template-columns`. */
export function rowWidths(cells: readonly (CellView | undefined)[]): string {
  const wants = cells.map((cell) => (cell === undefined ? 2 : widthWanted(cell)));
  const least = Math.max(...wants) / 3;
  return wants.map((want) => `minmax(0, ${Math.max(want, least).toFixed(2)}fr)`).join(" ");
}

function widthWanted(cell: CellView): number {
  const { answer, setting } = cell;
  if (setting?.type === "choice") {
    return (14 + setting.options.reduce((sum, option) => sum + option.length + 4, 0)) / 12;
  }
  if (answer === undefined) return 2;
  if (answer.chart !== undefined) return 3;
  return answer.table.columns.length > 4 ? 3 : 2;
}
