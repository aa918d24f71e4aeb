import { boxes, type Layer, type SegmentRow, symbols, type TextRow, texts } from "./layers.ts";
import { plainText } from "./plain-text.ts";
import type { TableDrawing } from "./table-drawing.ts";
import { fitText, textWidth } from "./text-width.ts";
import { groupStyles, textSize } from "./theme.ts";

const font = { size: textSize.label };
const lineHeight = 20;
const swatch = 11;

/** Shapes of points, in order of use; with the hues thirty groups differ. */
export const groupShapes = ["circle", "square", "triangle-up", "diamond", "cross"] as const;

export function shapeOf(group: number): string {
  return groupShapes[group % groupShapes.length] ?? groupShapes[0];
}

/** Pixels that the legend takes above the plot; none where lines carry their names. */
export function legendHeight(drawing: TableDrawing, width: number): number {
  const places = legendPlaces(drawing, width);
  return places.length === 0 ? 0 : (1 + Math.max(...places.map(({ line }) => line))) * lineHeight;
}

/** The names of the groups in the order of the marks, left to right, each with its mark. */
export function legendLayers(
  drawing: TableDrawing,
  { width, top }: { readonly width: number; readonly top: number },
): readonly Layer[] {
  return legendPlaces(drawing, width).flatMap(({ x, line, text }, group) => {
    const y = top + line * lineHeight + 13;
    const name: TextRow = { x: x + swatch + 6, y, text };
    const corner: SegmentRow = { x, y: y - 10, x2: x + swatch, y2: y - 10 + swatch };
    const hue = groupStyles(group).hue;
    const mark =
      drawing.as === "points"
        ? symbols([{ x: x + swatch / 2, y: y - 4 }], { shape: shapeOf(group), size: 46 }, [hue])
        : boxes([corner], [hue]);
    return [mark, texts([name], ["plain"])];
  });
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
