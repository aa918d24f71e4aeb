import type { Chart, ChartColumn } from "./chart.ts";
import { describeIntervals } from "./interval-description.ts";
import { type IntervalLayout, intervalLayout, namesHeading } from "./interval-layout.ts";
import { type Layer, layered, segments, symbols, texts } from "./layers.ts";
import { type PercentAxis, percentAxis, percentAxisLayers } from "./percent-axis.ts";
import { plainText } from "./plain-text.ts";
import { countText, type RateInterval, type RateIntervals, rateText } from "./rate-intervals.ts";
import { fitText, type TextRoom, textWidth, wrapText } from "./text-width.ts";
import { textSize } from "./theme.ts";

/**
 * Each group's rate as a square on the line of its interval, over a percent axis from zero, with
 * counts at the left and the numbers at the right; where narrow, they stand above the mark.
 */
export function intervalChart(
  intervals: RateIntervals,
  { width }: { readonly width: number },
): Chart {
  const { rows, reference } = intervals;
  const axis = percentAxis([
    ...rows.flatMap(({ rate, upper }) => [rate ?? 0, upper ?? 0]),
    ...(reference ? [reference.rate] : []),
  ]);
  const texts = rows.map((row) => ({
    label: row.label,
    count: countText(row),
    value: rateText(row),
  }));
  const layout = intervalLayout(texts, width, intervals.splitBy);
  const plot = { width, height: layout.bottom };
  const margins = { left: 0, right: 0, top: layout.top, bottom: 24 };
  return {
    kind: "interval",
    spec: layered(plot, margins, layersOf(intervals, axis, layout)),
    description: describeIntervals(intervals),
    width,
    height: margins.top + plot.height + margins.bottom,
    columns: columnsOf(intervals.counted),
    data: rows.map(({ pick: _pick, label, ...numbers }) => ({ group: label, ...numbers })),
  };
}

function layersOf(
  intervals: RateIntervals,
  axis: PercentAxis,
  layout: IntervalLayout,
): readonly Layer[] {
  const { x, width, bottom: foot, spans } = layout;
  const at = (rate: number): number => x + (rate / axis.max) * width;
  return [
    ...percentAxisLayers(axis, { x, width, foot, spans }),
    ...referenceLayers(intervals, at, layout),
    ...headings(intervals, layout),
    ...rowTexts(intervals, layout),
    ...marks(intervals, at, layout),
  ];
}

function referenceLayers(
  { reference }: RateIntervals,
  at: (rate: number) => number,
  { x, width, top, spans }: IntervalLayout,
): readonly Layer[] {
  if (!reference) return [];
  const line = at(reference.rate);
  const label = plainText(reference.label);
  const half = textWidth(label, { size: textSize.small }) / 2;
  const middle = Math.min(Math.max(line, x + half), x + width - half);
  return [
    segments(
      spans.map(({ top, bottom }) => ({ x: line, y: top, x2: line, y2: bottom })),
      ["standard"],
    ),
    texts([{ x: middle, y: 18 - top, text: label }], ["quiet", "small"], "center"),
  ];
}

function marks(
  { rows, tone }: RateIntervals,
  at: (rate: number) => number,
  { places }: IntervalLayout,
): readonly Layer[] {
  const lines = rows.flatMap(({ lower, upper, pick }, i) => {
    const y = places[i]!.markY;
    return lower === null || upper === null
      ? []
      : [{ x: at(lower), y, x2: at(upper), y2: y, pick }];
  });
  const points = rows.flatMap(({ rate, pick }, i) =>
    rate === null ? [] : [{ x: at(rate), y: places[i]!.markY, pick }],
  );
  return [
    segments(lines, ["interval", tone]),
    symbols(points, { shape: "square", size: 64 }, [tone]),
  ];
}

function headings(
  { counted, how, level = 0.95, rows, splitBy }: RateIntervals,
  layout: IntervalLayout,
): readonly Layer[] {
  const { countX, valueX, headingY } = layout;
  const percent = `${Number((level * 100).toFixed(1))}%`;
  const interval = how === undefined ? `${percent} interval` : `${how} (${percent})`;
  const count = fitText(plainText(counted), countRoom(rows));
  const entries = [
    { x: countX, y: headingY, text: count },
    { x: valueX, y: headingY, text: interval },
  ];
  return [
    texts(entries, ["quiet", "small"], "right"),
    texts(namesHeading(splitBy, count, layout), ["quiet", "small"]),
  ];
}

function countRoom(rows: readonly RateInterval[]): TextRoom {
  const counts = rows.map((row) => textWidth(countText(row), { size: textSize.label }));
  return { size: textSize.small, width: Math.max(40, ...counts) + 20 };
}

function rowTexts({ rows }: RateIntervals, layout: IntervalLayout): readonly Layer[] {
  const { places, labelRoom, countX, valueX } = layout;
  const font = { size: textSize.label, width: labelRoom };
  const names = rows.flatMap(({ label }, i) =>
    wrapText(plainText(label), 2, font).map((text, line) => ({
      x: 0,
      y: places[i]!.textY + line * 16,
      text,
    })),
  );
  const counts = rows.map((row, i) => ({
    x: countX,
    y: places[i]!.textY,
    text: countText(row),
    pick: row.pick,
  }));
  const values = rows.map((row, i) => ({ x: valueX, y: places[i]!.textY, text: rateText(row) }));
  return [
    texts(names, ["plain"]),
    texts(counts, ["plain"], "right"),
    texts(values, ["plain"], "right"),
  ];
}

function columnsOf(counted: string): readonly ChartColumn[] {
  return [
    { field: "group", label: "Group" },
    { field: "events", label: plainText(counted) },
    { field: "total", label: "Eyes" },
    { field: "rate", label: "Rate" },
    { field: "lower", label: "Lower limit" },
    { field: "upper", label: "Upper limit" },
  ];
}
