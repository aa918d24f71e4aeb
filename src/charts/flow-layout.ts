import { type CaseFlow, type FlowCount, type FlowStage, leftOutTotal } from "./case-flow.ts";
import { leftOutBox, outcomeBox, type SizedBox, stageBox } from "./flow-boxes.ts";
import type { SegmentRow, SymbolRow } from "./layers.ts";

/** A flow diagram in pixels from its top left corner. */
export interface FlowDrawing {
  readonly boxes: readonly FlowBox[];
  readonly lines: readonly SegmentRow[];
  readonly arrows: { readonly down: readonly SymbolRow[]; readonly right: readonly SymbolRow[] };
  readonly height: number;
}

export interface FlowBox extends SizedBox {
  readonly x: number;
  readonly y: number;
}

interface Drawing {
  readonly boxes: FlowBox[];
  readonly lines: SegmentRow[];
  readonly down: SymbolRow[];
  readonly right: SymbolRow[];
  /** Where the last box of what was left out ends. */
  sideFoot: number;
}

const narrowBelow = 480;
const leastOutcomeWidth = 112;
const gap = 26;
const tipLength = 3;

export interface FlowRoom {
  readonly width: number;
  /** What was left out stands beside the stages, not between them, where it has its own column. */
  readonly isLow: boolean;
}

export function flowDrawing(flow: CaseFlow, { width, isLow }: FlowRoom): FlowDrawing {
  const drawing: Drawing = { boxes: [], lines: [], down: [], right: [], sideFoot: 0 };
  const onWay = isLow && width >= narrowBelow ? wayDownLow : wayDown;
  const main = { width: width < narrowBelow ? width * 0.5 : width * 0.4, sideX: 0 };
  main.sideX = main.width / 2 + (width < narrowBelow ? 22 : 40 + main.width / 2);
  let y = 0;
  for (const [i, stage] of flow.stages.entries()) {
    if (i > 0) y = onWay(drawing, flow.stages[i - 1]!, { from: y, main, width });
    y = place(drawing, stageBox(stage, main.width), { x: 0, y });
  }
  const last = flow.stages.at(-1);
  if (last && last.leftOut.length > 0)
    y = onWay(drawing, last, { from: y, main, width, ends: true });
  if (flow.outcomes.length > 0) y = outcomes(drawing, flow, { from: y, main, width });
  const { boxes, lines, down, right } = drawing;
  return { boxes, lines, arrows: { down, right }, height: Math.max(y, drawing.sideFoot) };
}

interface Way {
  readonly from: number;
  readonly main: { readonly width: number; readonly sideX: number };
  readonly width: number;
  /** Nothing follows: no arrow down. */
  readonly ends?: boolean;
}

/** The way from one stage to the next, with what was left out beside it. Returns where it ends. */
function wayDown(drawing: Drawing, stage: FlowStage, { from, main, width, ends }: Way): number {
  const x = main.width / 2;
  if (stage.leftOut.length === 0) return arrowDown(drawing, x, { from, to: from + gap });
  const side = leftOutBox(stage, leftOutTotal(stage), width - main.sideX);
  const top = from + gap * 0.6;
  const middle = top + side.height / 2;
  place(drawing, side, { x: main.sideX, y: top });
  drawing.lines.push({ x, y: middle, x2: main.sideX, y2: middle });
  drawing.right.push({ x: main.sideX - tipLength, y: middle });
  const to = top + side.height + gap * 0.6;
  drawing.sideFoot = top + side.height;
  if (!ends) return arrowDown(drawing, x, { from, to });
  drawing.lines.push({ x, y: from, x2: x, y2: middle });
  return to;
}

/** The same, lower: the box of what was left out is level with the way, and reaches past it. */
function wayDownLow(drawing: Drawing, stage: FlowStage, { from, main, width, ends }: Way): number {
  const x = main.width / 2;
  if (stage.leftOut.length === 0) return arrowDown(drawing, x, { from, to: from + gap });
  const side = leftOutBox(stage, leftOutTotal(stage), width - main.sideX);
  const free = drawing.sideFoot === 0 ? 0 : drawing.sideFoot + gap * 0.4;
  const top = Math.max(free, from + gap / 2 - side.height / 2);
  const middle = Math.max(from + gap / 2, top + gap / 2);
  drawing.sideFoot = place(drawing, side, { x: main.sideX, y: top });
  drawing.lines.push({ x, y: middle, x2: main.sideX, y2: middle });
  drawing.right.push({ x: main.sideX - tipLength, y: middle });
  if (!ends) return arrowDown(drawing, x, { from, to: middle + gap / 2 });
  drawing.lines.push({ x, y: from, x2: x, y2: middle });
  return middle;
}

function outcomes(drawing: Drawing, { outcomes: parts }: CaseFlow, way: Way): number {
  return way.width / parts.length >= leastOutcomeWidth
    ? outcomesAbreast(drawing, parts, way)
    : outcomesStacked(drawing, parts, way);
}

/** Outcomes side by side over the whole width, under a bar that joins them. */
function outcomesAbreast(drawing: Drawing, parts: readonly FlowCount[], way: Way): number {
  const { from, main, width } = way;
  const space = 14;
  const each = (width - space * (parts.length - 1)) / parts.length;
  const sized = parts.map((part) => outcomeBox(part, each));
  const height = Math.max(...sized.map((box) => box.height));
  const barY = Math.max(from, drawing.sideFoot) + gap * 0.55;
  const top = barY + gap * 0.75;
  const centres = parts.map((_, i) => i * (each + space) + each / 2);
  const bar = [...centres, main.width / 2];
  drawing.lines.push({ x: main.width / 2, y: from, x2: main.width / 2, y2: barY });
  drawing.lines.push({ x: Math.min(...bar), y: barY, x2: Math.max(...bar), y2: barY });
  sized.forEach((box, i) => {
    arrowDown(drawing, centres[i]!, { from: barY, to: top });
    place(drawing, { ...box, height }, { x: i * (each + space), y: top });
  });
  return top + height;
}

/** Outcomes one under another, hung on a line down the left. */
function outcomesStacked(drawing: Drawing, parts: readonly FlowCount[], way: Way): number {
  const x = 12;
  const indent = 34;
  let y = Math.max(way.from, drawing.sideFoot) + 12;
  let last = y;
  for (const part of parts) {
    const box = outcomeBox(part, way.width - indent);
    last = y + box.height / 2;
    drawing.lines.push({ x, y: last, x2: indent, y2: last });
    drawing.right.push({ x: indent - tipLength, y: last });
    y = place(drawing, box, { x: indent, y }) + 8;
  }
  drawing.lines.push({ x, y: way.from, x2: x, y2: last });
  return y - 8;
}

function arrowDown(
  drawing: Drawing,
  x: number,
  { from, to }: { from: number; to: number },
): number {
  drawing.lines.push({ x, y: from, x2: x, y2: to });
  drawing.down.push({ x, y: to - tipLength });
  return to;
}

/** Puts a box down; returns its foot. */
function place(drawing: Drawing, box: SizedBox, at: { x: number; y: number }): number {
  drawing.boxes.push({ ...box, ...at });
  return at.y + box.height;
}
