import { groupShape } from "./group-shape.ts";
import { type Layer, type SymbolRow, symbols, type TextRow, texts } from "./layers.ts";
import { plainText } from "./plain-text.ts";
import type { TableDrawing } from "./table-drawing.ts";
import { fitText, textWidth } from "./text-width.ts";
import { groupStyles, textSize } from "./theme.ts";

const font = { size: textSize.label };
const lineHeight = 20;
const swatch = 11;
const size = 46;

/** Pixels that the legend takes above the plot; none where lines carry their names. */
export function legendHeight(drawing: TableDrawing, width: number): number {
  const places = legendPlaces(drawing, width);
  return places.length === 0 ? 0 : (1 + Math.max(...places.map(({ line }) => line))) * lineHeight;
}

/** The names of the groups in the order of the marks, left to right, each with its symbol. */
export function legendLayers(
  drawing: TableDrawing,
  { width, top }: { readonly width: number; readonly top: number },
): readonly Layer[] {
  return legendPlaces(drawing, width).flatMap(({ x, line, text }, group) => {
    const y = top + line * lineHeight + 13;
    const name: TextRow = { x: x + swatch + 6, y, text };
    const symbol = { x: x + swatch / 2, y: y - 4 };
    return [groupSymbols([symbol], { group, size }), texts([name], ["plain"])];
  });
}

/** Symbols at the feet of bars and boxes: which group each is, where there is no colour. */
export function footSymbols(
  { groups }: TableDrawing,
  { thickness, at }: { thickness: number; at: (group: number) => readonly SymbolRow[] },
): readonly Layer[] {
  if (groups.length < 2) return [];
  const fitting = Math.min(size, (0.8 * thickness) ** 2);
  return groups.map((_, group) => groupSymbols(at(group), { group, size: fitting }));
}

/** Pixels that the symbols at the feet take. */
export function footRoom({ as, groups }: TableDrawing): number {
  return (as === "bars" || as === "boxes") && groups.length > 1 ? 14 : 0;
}

/** The symbols of a group, in its hue. */
export function groupSymbols(
  rows: readonly SymbolRow[],
  { group, size }: { readonly group: number; readonly size: number },
): Layer {
  return symbols(rows, { ...groupShape(group), size }, [groupStyles(group).hue]);
}

interface LegendPlace {
  readonly x: number;
  readonly line: number;
  readonly text: string;
}

function legendPlaces({ as, groups }: TableDrawing, width: number): readonly LegendPlace[] {
  if (as === "line") return [];
  let [x, line] = [0, 0];
  return groups.map((group) => {
    const text = fitText(plainText(group), { ...font, width: Math.min(width - 30, 260) });
    const taken = swatch + 6 + textWidth(text, font) + 20;
    if (x > 0 && x + taken - 20 > width) [x, line] = [0, line + 1];
    const place = { x, line, text };
    x += taken;
    return place;
  });
}
