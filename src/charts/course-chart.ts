import type { Chart, ChartRow, Margins } from "./chart.ts";
import type { Course } from "./course.ts";
import { outcomesBox, type SizedBox, stageBox } from "./flow-boxes.ts";
import { boxes, type Layer, layered, type SegmentRow, segments, symbols, texts } from "./layers.ts";
import { plainText } from "./plain-text.ts";

const margins: Margins = { left: 1, right: 1, top: 1, bottom: 1 };
const trunkX = 12;
const indent = 30;
const tipLength = 3;
const narrowBelow = 480;

/**
 * A course as boxes: at the head the event, hung on a line under it what was done next, and
 * beside each of these how its eyes ended.
 */
export function courseChart(course: Course, { width }: { readonly width: number }): Chart {
  const plotWidth = width - margins.left - margins.right;
  const { drawn, lines, tips, height } = laid(course, plotWidth);
  return {
    kind: "course",
    spec: layered({ width: plotWidth, height }, margins, [
      segments(lines, ["axis"]),
      symbols(tips, { shape: "triangle-right", size: 36 }, ["quiet"]),
      boxes(drawn.map(corners), ["box"]),
      ...drawn.flatMap(boxTexts),
    ]),
    description: describe(course),
    width,
    height: height + margins.top + margins.bottom,
    columns: [
      { field: "next", label: "Next" },
      { field: "end", label: "Last known" },
      { field: "count", label: "Count" },
    ],
    data: rowsOf(course),
  };
}

interface PlacedBox extends SizedBox {
  readonly x: number;
  readonly y: number;
}

function laid({ start, steps }: Course, width: number) {
  const narrow = width < narrowBelow;
  const stepWidth = (width - indent) * (narrow ? 0.46 : 0.44);
  const endX = indent + stepWidth + (narrow ? 20 : 44);
  const head: PlacedBox = { ...stageBox({ ...start, leftOut: [] }, stepWidth), x: 0, y: 0 };
  const drawn: PlacedBox[] = [head];
  const lines: SegmentRow[] = [];
  const tips: { x: number; y: number }[] = [];
  const arrow = (from: number, to: number, y: number): void => {
    lines.push({ x: from, y, x2: to, y2: y });
    tips.push({ x: to - tipLength, y });
  };
  let y = head.height + 14;
  let last = head.height;
  for (const step of steps) {
    const box = stageBox({ ...step, leftOut: [] }, stepWidth);
    const ends = outcomesBox(step.ends, width - endX);
    const height = Math.max(box.height, ends.height);
    last = y + height / 2;
    arrow(trunkX, indent, last);
    arrow(indent + stepWidth, endX, last);
    drawn.push({ ...box, x: indent, y: last - box.height / 2 });
    drawn.push({ ...ends, x: endX, y: last - ends.height / 2 });
    y += height + 10;
  }
  lines.push({ x: trunkX, y: head.height, x2: trunkX, y2: last });
  return { drawn, lines, tips, height: steps.length === 0 ? head.height : y - 10 };
}

function corners({ x, y, width, height, pick }: PlacedBox): SegmentRow {
  return { x, y, x2: x + width, y2: y + height, pick };
}

function boxTexts(box: PlacedBox): readonly Layer[] {
  return box.texts.map(({ x, y, text, style, pick }) =>
    texts([{ x: box.x + x, y: box.y + y, text, pick }], style),
  );
}

function describe({ start, steps }: Course): string {
  const parts = steps.map(({ count, label, ends }) => {
    const ended = ends.map((end) => `${end.count} ${plainText(end.label)}`);
    return `${plainText(label)} ${count}: ${ended.join(", ")}.`;
  });
  return [`${start.count} ${plainText(start.label)}.`, ...parts].join(" ");
}

function rowsOf({ start, steps }: Course): readonly ChartRow[] {
  return [
    { next: null, end: null, count: start.count },
    ...steps.flatMap(({ label, count, ends }) => [
      { next: label, end: null, count },
      ...ends.map((end) => ({ next: label, end: end.label, count: end.count })),
    ]),
  ];
}
