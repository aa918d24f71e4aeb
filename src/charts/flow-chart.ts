import { type CaseFlow, leftOutTotal } from "./case-flow.ts";
import type { Chart, ChartRow, Margins } from "./chart.ts";
import { type FlowBox, type FlowDrawing, flowDrawing } from "./flow-layout.ts";
import { boxes, type Layer, layered, type SegmentRow, segments, symbols, texts } from "./layers.ts";
import { plainText } from "./plain-text.ts";

const margins: Margins = { left: 1, right: 1, top: 1, bottom: 1 };

/**
 * The case flow as boxes: each stage above the next, what was left out beside the way with its
 * reasons, and at the foot how the eyes analysed divide. Where narrow, all boxes stand in one
 * column; where it is to be lower, what was left out stands beside the stages themselves.
 */
export function flowChart(
  flow: CaseFlow,
  { width, lower = 0 }: { readonly width: number; readonly lower?: number },
): Chart {
  const room = width - margins.left - margins.right;
  const drawing = flowDrawing(flow, { width: room, isLow: lower > 0 });
  const plot = { width: room, height: drawing.height };
  return {
    kind: "flow",
    spec: layered(plot, margins, layersOf(drawing)),
    description: describeFlow(flow),
    width,
    height: drawing.height + margins.top + margins.bottom,
    columns: [
      { field: "step", label: "Step" },
      { field: "part", label: "Part" },
      { field: "count", label: "Count" },
    ],
    data: rowsOf(flow),
  };
}

function layersOf({ boxes: all, lines, arrows }: FlowDrawing): readonly Layer[] {
  return [
    segments(lines, ["axis"]),
    symbols(arrows.down, { shape: "triangle-down", size: 36 }, ["quiet"]),
    symbols(arrows.right, { shape: "triangle-right", size: 36 }, ["quiet"]),
    boxes(all.map(corners), ["box"]),
    ...all.flatMap(boxTexts),
  ];
}

function corners({ x, y, width, height, pick }: FlowBox): SegmentRow {
  return { x, y, x2: x + width, y2: y + height, pick };
}

function boxTexts(box: FlowBox): readonly Layer[] {
  return box.texts.map(({ x, y, text, style, pick }) =>
    texts([{ x: box.x + x, y: box.y + y, text, pick }], style),
  );
}

function describeFlow({ stages, outcomes }: CaseFlow): string {
  const parts = stages.map((stage) => {
    const reasons = stage.leftOut.map(({ count, label }) => `${count} ${plainText(label)}`);
    const start = `${stage.count} ${plainText(stage.label)}`;
    return reasons.length === 0
      ? `${start}.`
      : `${start}; ${leftOutTotal(stage)} left out: ${reasons.join(", ")}.`;
  });
  const ends = outcomes.map(({ count, label }) => `${count} ${plainText(label)}`);
  return [...parts, ...(ends.length > 0 ? [`Of these: ${ends.join(", ")}.`] : [])].join(" ");
}

function rowsOf({ stages, outcomes }: CaseFlow): readonly ChartRow[] {
  return [
    ...stages.flatMap(({ label, count, leftOut }) => [
      { step: label, part: null, count },
      ...leftOut.map((reason) => ({ step: "left out", part: reason.label, count: reason.count })),
    ]),
    ...outcomes.map(({ label, count }) => ({ step: "outcome", part: label, count })),
  ];
}
