import type { Chart, ChartColumn } from "./chart.ts";
import { type EffectAxis, effectAxis, effectAxisLayers } from "./effect-axis.ts";
import { type EffectInterval, type EffectIntervals, effectText } from "./effect-intervals.ts";
import { type IntervalLayout, intervalLayout, namesHeading } from "./interval-layout.ts";
import { type Layer, layered, segments, symbols, texts } from "./layers.ts";
import { plainText } from "./plain-text.ts";
import { fitText, textWidth, wrapText } from "./text-width.ts";
import { smallTextRoom, textSize } from "./theme.ts";

/**
 * Differences or ratios, a row each: the estimate on the line of its interval, over an axis with a
 * dotted line at no difference; counts at the left, numbers at the right. A limit beyond the axis
 * ends in an arrow. A row that sums up the others is a diamond.
 */
export function effectChart(
  effects: EffectIntervals,
  { width }: { readonly width: number },
): Chart {
  const { rows, scale } = effects;
  const axis = effectAxis(effects);
  const layout = intervalLayout(
    rows.map((row) => ({ label: row.label, count: row.count, value: effectText(row, scale) })),
    width,
    effects.splitBy,
  );
  const plot = { width, height: layout.bottom };
  const sides = effects.sides === undefined ? 0 : 18;
  const margins = { left: 0, right: 0, top: layout.top, bottom: 24 + sides };
  return {
    kind: "effects",
    spec: layered(plot, margins, layersOf(effects, axis, layout)),
    description: describe(effects),
    width,
    height: margins.top + plot.height + margins.bottom,
    columns: columnsOf(effects),
    data: rows.map(({ label, count, estimate, lower, upper }) => ({
      label,
      count,
      estimate: finite(estimate),
      lower: finite(lower),
      upper: finite(upper),
    })),
  };
}

/** Rows stay plain JSON: what has no end is left to the description. */
function finite(value: number | null): number | null {
  return value !== null && Number.isFinite(value) ? value : null;
}

function layersOf(
  effects: EffectIntervals,
  axis: EffectAxis,
  layout: IntervalLayout,
): readonly Layer[] {
  const { x, width, bottom: foot, spans } = layout;
  return [
    ...effectAxisLayers(axis, { x, width, foot, spans }),
    ...sideLayers(effects, axis, layout),
    ...headings(effects, layout),
    ...rowTexts(effects, layout),
    ...marks(effects, axis, layout),
  ];
}

/** Which way is which, under the axis on either side of no difference. */
function sideLayers(
  { sides }: EffectIntervals,
  axis: EffectAxis,
  { x, width, bottom }: IntervalLayout,
): readonly Layer[] {
  if (sides === undefined) return [];
  const middle = x + axis.at(axis.none) * width;
  const y = bottom + 34;
  const shortened = (text: string, room: number): string =>
    room < 40 ? "" : fitText(plainText(text), { size: smallTextRoom, width: room });
  const below = shortened(`‹ ${sides.below}`, middle - 8);
  const above = shortened(`${sides.above} ›`, x + width - middle + 60);
  return [
    texts([{ x: middle - 8, y, text: below }], ["quiet", "small"], "right"),
    texts([{ x: middle + 8, y, text: above }], ["quiet", "small"]),
  ];
}

function headings(effects: EffectIntervals, layout: IntervalLayout): readonly Layer[] {
  const { countX, valueX, headingY } = layout;
  const room = { size: smallTextRoom, width: Math.max(40, valueX - countX - 10) };
  const percent = Number(((effects.level ?? 0.95) * 100).toFixed(1));
  const measure = plainText(effects.measure);
  const whole = `${measure} (${percent}% interval)`;
  const heading = textWidth(whole, room) <= room.width ? whole : fitText(measure, room);
  const counted = plainText(effects.counted);
  const entries = [
    { x: countX, y: headingY, text: counted },
    { x: valueX, y: headingY, text: heading },
  ];
  return [
    texts(entries, ["quiet", "small"], "right"),
    texts(namesHeading(effects.splitBy, counted, layout), ["quiet", "small"]),
  ];
}

function rowTexts({ rows, scale }: EffectIntervals, layout: IntervalLayout): readonly Layer[] {
  const { places, labelRoom, countX, valueX } = layout;
  const font = { size: textSize.label, width: labelRoom };
  const names = rows.flatMap(({ label }, i) =>
    wrapText(plainText(label), 2, font).map((text, line) => ({
      x: 0,
      y: places[i]!.textY + line * 16,
      text,
    })),
  );
  const at = (x: number, text: (row: EffectInterval) => string) =>
    rows.map((row, i) => ({ x, y: places[i]!.textY, text: text(row), pick: row.pick }));
  return [
    texts(names, ["plain"]),
    texts(
      at(countX, ({ count }) => (count === "" ? "" : plainText(count))),
      ["plain"],
      "right",
    ),
    texts(
      at(valueX, (row) => effectText(row, scale)),
      ["plain"],
      "right",
    ),
  ];
}

function marks(
  { rows }: EffectIntervals,
  axis: EffectAxis,
  { places, x, width }: IntervalLayout,
): readonly Layer[] {
  const at = (value: number): number => x + axis.at(value) * width;
  const drawn = rows.flatMap((row, i) => {
    const { estimate, lower, upper, pick, isSummary = false } = row;
    return estimate === null
      ? []
      : [{ estimate, lower, upper, pick, isSummary, y: places[i]!.markY }];
  });
  const lines = drawn.flatMap(({ lower, upper, y, pick }) =>
    lower === null || upper === null ? [] : [{ x: at(lower), y, x2: at(upper), y2: y, pick }],
  );
  const arrows = (end: "lower" | "upper") =>
    drawn.flatMap((row) => {
      const limit = row[end];
      return limit !== null && axis.isBeyond(limit) ? [{ x: at(limit), y: row.y }] : [];
    });
  const points = (isSummary: boolean) =>
    drawn
      .filter((row) => row.isSummary === isSummary)
      .map(({ estimate, y, pick }) => ({ x: at(estimate), y, pick }));
  return [
    segments(lines, ["interval", "plain"]),
    symbols(arrows("lower"), { shape: "triangle-left", size: 40 }, ["plain"]),
    symbols(arrows("upper"), { shape: "triangle-right", size: 40 }, ["plain"]),
    symbols(points(false), { shape: "square", size: 64 }, ["plain"]),
    symbols(points(true), { shape: "diamond", size: 120 }, ["plain"]),
  ];
}

function columnsOf({ measure, counted }: EffectIntervals): readonly ChartColumn[] {
  return [
    { field: "label", label: "Row" },
    { field: "count", label: plainText(counted) },
    { field: "estimate", label: plainText(measure) },
    { field: "lower", label: "Lower limit" },
    { field: "upper", label: "Upper limit" },
  ];
}

/** The measure, then each row with its counts, value and limits. */
function describe({ rows, scale, measure, splitBy }: EffectIntervals): string {
  const sentences = rows.map((row) => {
    const count = row.count === "" ? "" : `${plainText(row.count)}, `;
    return `${plainText(row.label)}: ${count}${effectText(row, scale)}.`;
  });
  const by = splitBy === undefined ? "" : ` by ${plainText(splitBy)}`;
  return [`${plainText(measure)}${by}.`, ...sentences].join(" ");
}
