import type { Chart, ChartColumn, ChartRow } from "./chart.ts";
import { type Layer, layered, segments, texts } from "./layers.ts";
import { isLying, lyingBars } from "./lying-bars.ts";
import { plainText } from "./plain-text.ts";
import { describeTable } from "./table-description.ts";
import { type DrawnScale, scaleLabel, type TableDrawing } from "./table-drawing.ts";
import { namesOf, type TableLayout, tableLayout } from "./table-layout.ts";
import { footRoom, legendHeight, legendLayers } from "./table-legend.ts";
import { markLayers } from "./table-mark-layers.ts";
import { fitText, textWidth, wrapText } from "./text-width.ts";
import { textSize } from "./theme.ts";
import { type ValueAxis, valueLabel } from "./value-axis.ts";

const font = { size: textSize.label };
const lineHeight = 16;

/**
 * Bars, points, lines or boxes over groups or an axis; bars lie down where their names would not
 * fit under them. Groups differ by hue and by shape or dash (bars and boxes by the shape at their
 * feet), and are named above or at the line's end.
 */
export function tableChart(
  drawing: TableDrawing,
  { width, lower = 0 }: { readonly width: number; readonly lower?: number },
): Chart {
  const facts = {
    kind: "table",
    description: describeTable(drawing),
    width,
    columns: columnsOf(drawing),
    data: rowsOf(drawing),
  };
  const legend = legendHeight(drawing, width);
  if (isLying(drawing, width)) {
    const lying = lyingBars(drawing, width);
    const margins = { left: 0, right: 0, top: legend + 24, bottom: 8 };
    const layers = [...headLayers(drawing, { legend, width }), ...lying.layers];
    const spec = layered({ width, height: lying.height }, margins, layers);
    return { ...facts, spec, height: margins.top + lying.height + margins.bottom };
  }
  const layout = tableLayout(drawing, width, lower);
  const foot = footRoom(drawing);
  const names = acrossLabels(drawing, { ...layout, height: layout.height + foot });
  const margins = { left: 0, right: 0, top: legend + 30, bottom: foot + names.height + 24 };
  const spec = layered({ width, height: layout.height }, margins, [
    ...frameLayers(layout),
    ...markLayers(drawing, layout),
    ...names.layers,
    ...headLayers(drawing, { legend, width, axis: layout.axis }),
    acrossTitle(drawing, layout, foot + names.height),
  ]);
  return { ...facts, spec, height: margins.top + layout.height + margins.bottom };
}

/** What goes up, and the legend under it. */
function headLayers(
  drawing: TableDrawing,
  {
    legend,
    width,
    axis,
  }: { readonly legend: number; readonly width: number; readonly axis?: ValueAxis },
): readonly Layer[] {
  const title = fitText(titleOf(drawing.up, axis), { ...font, width });
  const lift = drawing.as === "bars" ? 12 : 14;
  return [
    texts([{ x: 0, y: -legend - lift, text: title }], ["quiet"]),
    ...legendLayers(drawing, { width, top: -legend - 6 }),
  ];
}

function frameLayers({ axis, left, right, height, y }: TableLayout): readonly Layer[] {
  const lines = axis.ticks.map(({ value }) => ({ x: left, y: y(value), x2: right, y2: y(value) }));
  const labels = axis.ticks.map(({ value, text }) => ({ x: left - 8, y: y(value) + 4, text }));
  return [
    segments(lines, ["hairline"]),
    segments([{ x: left, y: height, x2: right, y2: height }], ["axis"]),
    texts(labels, ["quiet"], "right"),
  ];
}

/** Names under the marks, upright where there is no room; or the ticks of the axis. */
function acrossLabels(
  { across }: TableDrawing,
  { acrossAxis, step, height, centre }: TableLayout,
): { readonly layers: readonly Layer[]; readonly height: number } {
  if (acrossAxis !== undefined) {
    const ticks = acrossAxis.ticks.map(({ value, text }) => {
      return { x: centre(value), y: height + 18, text };
    });
    return { layers: [texts(ticks, ["quiet"], "center")], height: lineHeight };
  }
  const names = namesOf(across);
  if (step < 40) return uprightNames(names, { step, height, centre });
  const wrapped = names.map((name) => wrapText(name, 3, { ...font, width: step - 8 }));
  const lines = wrapped.flatMap((parts, i) =>
    parts.map((text, line) => ({ x: centre(i), y: height + 18 + line * lineHeight, text })),
  );
  const most = Math.max(1, ...wrapped.map((parts) => parts.length));
  return { layers: [texts(lines, ["plain"], "center")], height: most * lineHeight };
}

/** Names that run upwards, ending under their marks; thinned where they would lie over another. */
function uprightNames(
  names: readonly string[],
  { step, height, centre }: Pick<TableLayout, "step" | "height" | "centre">,
): { readonly layers: readonly Layer[]; readonly height: number } {
  const stride = Math.ceil(lineHeight / step);
  const fitted = names.map((name) => fitText(name, { ...font, width: 130 }));
  const rows = fitted
    .map((text, i) => ({ x: centre(i) + 4, y: height + 8, text }))
    .filter((_, i) => i % stride === 0);
  const upright = texts(rows, ["plain"], "right");
  const tallest = Math.max(0, ...rows.map(({ text }) => textWidth(text, font)));
  return {
    layers: [{ ...upright, mark: { ...upright.mark, angle: 270 } }],
    height: Math.ceil(tallest) + 4,
  };
}

function acrossTitle(
  { across }: TableDrawing,
  { left, right, height, acrossAxis }: TableLayout,
  below: number,
): Layer {
  const text = fitText(titleOf(across, acrossAxis), { ...font, width: right - left });
  return texts([{ x: right, y: height + below + 20, text }], ["quiet"], "right");
}

/** What a scale shows; and where its axis begins, if zero is not on it. */
function titleOf(scale: DrawnScale, axis: ValueAxis | undefined): string {
  const label = plainText(scaleLabel(scale));
  if (axis === undefined || (axis.min <= 0 && axis.max >= 0)) return label;
  // Days and years are counted from no zero that anyone compares with.
  const isCalendar = scale.kind === "day" || (axis.min >= 1900 && axis.max <= 2200);
  if (isCalendar) return label;
  return `${label}; axis begins at ${valueLabel(axis.min, scale.kind)}`;
}

function columnsOf({ across, up, by, as }: TableDrawing): readonly ChartColumn[] {
  return [
    { field: "across", label: plainText(scaleLabel(across)) },
    ...(by === undefined ? [] : [{ field: "group", label: plainText(by) }]),
    { field: "up", label: `${as === "boxes" ? "median " : ""}${plainText(scaleLabel(up))}` },
    ...(as === "boxes"
      ? ["least", "lower", "upper", "most"].map((field) => ({ field, label: spreadLabels[field]! }))
      : []),
    { field: "rows", label: "rows" },
  ];
}

const spreadLabels: Readonly<Record<string, string>> = {
  least: "lower whisker",
  lower: "lower quartile",
  upper: "upper quartile",
  most: "upper whisker",
};

function rowsOf({ across, groups, marks, by }: TableDrawing): readonly ChartRow[] {
  return marks.map((mark) => ({
    across: across.names?.[mark.across] ?? mark.across,
    ...(by === undefined ? {} : { group: groups[mark.group] ?? null }),
    up: mark.up,
    ...(mark.spread === undefined
      ? {}
      : {
          least: mark.spread.least,
          lower: mark.spread.lower,
          upper: mark.spread.upper,
          most: mark.spread.most,
        }),
    rows: mark.rows,
  }));
}
