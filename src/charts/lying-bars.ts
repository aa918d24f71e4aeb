import { boxes, type Layer, segments, texts } from "./layers.ts";
import type { TableDrawing, TableMark } from "./table-drawing.ts";
import { namesOf, tableLayout } from "./table-layout.ts";
import { footRoom, footSymbols } from "./table-legend.ts";
import { textWidth, wrapText } from "./text-width.ts";
import { groupStyles, textSize } from "./theme.ts";
import { valueLabel } from "./value-axis.ts";

const font = { size: textSize.label };
const thickness = 14;
const gap = 10;

/** Whether bars lie down: their names would not fit under them, and none falls below zero. */
export function isLying(drawing: TableDrawing, width: number): boolean {
  if (drawing.as !== "bars" || drawing.marks.some(({ up }) => (up ?? 0) < 0)) return false;
  const { step, thickness: upright } = tableLayout(drawing, width);
  const room = { ...font, width: step - 8 };
  const fits = (name: string) =>
    name.split(" ").every((word) => textWidth(word, font) <= room.width) &&
    wrapText(name, 4, room).length <= 3;
  return upright < 18 || !namesOf(drawing.across).every(fits);
}

/** One row of bars a name, each with its value at its end. */
export function lyingBars(
  drawing: TableDrawing,
  width: number,
): { readonly layers: readonly Layer[]; readonly height: number } {
  const names = namesOf(drawing.across);
  const room = Math.min(widest(names), width * 0.4);
  const groups = Math.max(1, drawing.groups.length);
  const rowHeight = Math.max(32, groups * (thickness + 2) + gap);
  const x = Math.ceil(room) + 14 + footRoom(drawing);
  const text = ({ up }: TableMark) => (up === null ? "–" : valueLabel(up, drawing.up.kind));
  const longest = Math.max(0, ...drawing.marks.map(({ up }) => up ?? 0)) || 1;
  const scale = Math.max(20, width - x - widest(drawing.marks.map(text)) - 14) / longest;
  const placed = drawing.marks.map((mark) => {
    const first = mark.across * rowHeight + (rowHeight - groups * (thickness + 2)) / 2;
    const y = first + mark.group * (thickness + 2);
    return { mark, y, x2: x + (mark.up ?? 0) * scale };
  });
  const height = names.length * rowHeight;
  return {
    height,
    layers: [
      ...barLayers(placed, { x, groups }),
      segments([{ x, y: 0, x2: x, y2: height }], ["axis"]),
      ...footSymbols(drawing, {
        thickness,
        at: (group) =>
          placed
            .filter(({ mark }) => mark.group === group)
            .map(({ y }) => ({ x: x - 9, y: y + thickness / 2 })),
      }),
      nameLayer(names, { room, rowHeight }),
      texts(
        placed.map(({ mark, y, x2 }) => {
          return { x: x2 + 7, y: y + 12, text: text(mark), pick: mark.pick };
        }),
        ["plain"],
      ),
    ],
  };
}

interface PlacedBar {
  readonly mark: TableMark;
  readonly y: number;
  readonly x2: number;
}

function barLayers(
  placed: readonly PlacedBar[],
  { x, groups }: { readonly x: number; readonly groups: number },
): Layer[] {
  return Array.from({ length: groups }, (_, group) => {
    const own = placed.filter(({ mark }) => mark.group === group && (mark.up ?? 0) > 0);
    const rows = own.map(({ mark, y, x2 }) => ({ x, y, x2, y2: y + thickness, pick: mark.pick }));
    return boxes(rows, [groupStyles(group).hue]);
  });
}

function nameLayer(
  names: readonly string[],
  { room, rowHeight }: { readonly room: number; readonly rowHeight: number },
): Layer {
  const rows = names.flatMap((name, i) => {
    const lines = wrapText(name, 2, { ...font, width: room + 1 });
    const first = (i + 0.5) * rowHeight + (lines.length > 1 ? -3 : 5);
    return lines.map((text, line) => ({ x: 0, y: first + line * 15, text }));
  });
  return texts(rows, ["plain"]);
}

function widest(all: readonly string[]): number {
  return Math.max(0, ...all.map((text) => textWidth(text, font)));
}
