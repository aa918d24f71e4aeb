import type { AcuityScatter, ScatterPoint } from "./acuity-scatter.ts";
import type { Chart } from "./chart.ts";
import { groupShape } from "./group-shape.ts";
import { type Layer, layered, type SegmentRow, segments, symbols, texts } from "./layers.ts";
import { plainText } from "./plain-text.ts";
import { fitText } from "./text-width.ts";
import { groupStyles, textSize } from "./theme.ts";

const largest = 460;
const threeLines = 0.3;
const left = 52;
const right = 40;
const legendLine = 20;
/** Square pixels of the symbol of one eye, and the most of the largest point. */
const oneEye = 30;
const largestPoint = 1500;

/**
 * Acuity after over acuity before, better upwards and to the right: above the line of no change
 * the eye sees better. Dashed lines mark 0.3 logMAR (15 letters) either way; low vision stands at
 * its table's number and is named at the edge. A point's area is its number of eyes.
 */
export function acuityScatterChart(
  scatter: AcuityScatter,
  { width, lower = 0 }: { readonly width: number; readonly lower?: number },
): Chart {
  const own = Math.min(largest, width - left - right);
  const side = Math.min(own, Math.max(240, own - lower));
  const scale = scaleOf(scatter, side);
  const legend = legendOf(scatter, { side, width });
  const top = 40 + legend.above;
  const margins = { left, right: width - left - side, top, bottom: 46 };
  return {
    kind: "acuity-scatter",
    spec: layered({ width: side, height: side }, margins, [
      ...grid(scale),
      ...lines(scale),
      ...corners(scale),
      ...lowVisionLabels(scatter, scale),
      ...points(scatter, scale),
      ...legendLayers(legend),
    ]),
    description: describe(scatter),
    width,
    height: margins.top + side + margins.bottom,
    columns: [
      { field: "group", label: "Group" },
      { field: "before", label: "logMAR before" },
      { field: "after", label: "logMAR after" },
      { field: "eyes", label: "Eyes" },
    ],
    data: scatter.points.map(({ before, after, group, eyes }) => ({
      group: scatter.groups[group] ?? "",
      before,
      after,
      eyes,
    })),
  };
}

interface Scale {
  readonly side: number;
  readonly best: number;
  readonly worst: number;
  /** Pixels from the left, and from the top. */
  readonly x: (logMar: number) => number;
  readonly y: (logMar: number) => number;
  readonly ticks: readonly number[];
}

function scaleOf({ points: all }: AcuityScatter, side: number): Scale {
  const values = all.flatMap(({ before, after }) => [before, after]);
  const best = Math.min(-0.2, ...values) - 0.05;
  const worst = Math.max(1, ...values) + 0.1;
  const x = (logMar: number): number => ((worst - logMar) / (worst - best)) * side;
  const ticks = Array.from({ length: Math.floor(worst / 0.5) + 1 }, (_, i) => i * 0.5);
  return { side, best, worst, x, y: (logMar) => side - x(logMar), ticks };
}

function grid({ side, x, y, ticks }: Scale): readonly Layer[] {
  const label = (logMar: number): string => logMar.toFixed(1);
  return [
    segments(
      ticks.flatMap((tick) => [
        { x: x(tick), y: 0, x2: x(tick), y2: side },
        { x: 0, y: y(tick), x2: side, y2: y(tick) },
      ]),
      ["hairline"],
    ),
    texts(
      ticks.map((tick) => ({ x: x(tick), y: side + 17, text: label(tick) })),
      ["quiet"],
      "center",
    ),
    texts(
      ticks.map((tick) => ({ x: -9, y: y(tick) + 4, text: label(tick) })),
      ["quiet"],
      "right",
    ),
    texts([{ x: side, y: side + 36, text: "logMAR before (better ›)" }], ["quiet"], "right"),
    texts([{ x: -left, y: -26, text: "logMAR after (better ↑)" }], ["quiet"]),
  ];
}

/** No change, and three lines better and worse, each cut at the edges of the plot. */
function lines(scale: Scale): readonly Layer[] {
  return [
    segments([diagonal(scale, 0)], ["axis"]),
    segments([diagonal(scale, -threeLines), diagonal(scale, threeLines)], ["standard"]),
  ];
}

/** The line on which an eye changed by `change`. */
function diagonal({ best, worst, x, y }: Scale, change: number): SegmentRow {
  const from = Math.min(worst, worst - change);
  const to = Math.max(best, best - change);
  return { x: x(from), y: y(from + change), x2: x(to), y2: y(to + change) };
}

/** What lies beyond the dashed lines, set where few eyes are. */
function corners({ side }: Scale): readonly Layer[] {
  const style = ["quiet", "small"];
  return [
    texts([{ x: 6, y: side * 0.5, text: "gained 15+ letters" }], style),
    texts([{ x: side * 0.74, y: side * 0.87, text: "lost 15+ letters" }], style, "right"),
  ];
}

/** CF, HM, LP and NLP at the edges over against the axes. */
function lowVisionLabels({ lowVision }: AcuityScatter, scale: Scale): readonly Layer[] {
  const { side, x, y } = scale;
  const above = lowVision.map(({ label, logMar }) => ({ x: x(logMar), y: -6, text: label }));
  const beside = lowVision.map(({ label, logMar }) => ({
    x: side + 8,
    y: y(logMar) + 4,
    text: label,
  }));
  return [texts(above, ["quiet", "small"], "center"), texts(beside, ["quiet", "small"])];
}

function points(scatter: AcuityScatter, scale: Scale): readonly Layer[] {
  return [...new Set(scatter.points.map(({ eyes }) => eyes))]
    .sort((a, b) => b - a)
    .flatMap((eyes) =>
      scatter.groups.map((_, group) => samePoints(scatter, scale, { eyes, group })),
    );
}

/** Points of one group and one size: large ones are drawn first, so that none is hidden. */
function samePoints(
  { points: all }: AcuityScatter,
  { x, y }: Scale,
  { eyes, group }: Pick<ScatterPoint, "eyes" | "group">,
): Layer {
  const rows = all
    .filter((point) => point.eyes === eyes && point.group === group)
    .map(({ before, after, pick }) => ({ x: x(before), y: y(after), pick }));
  const most = Math.max(...all.map((point) => point.eyes));
  const size = eyes * Math.min(oneEye, largestPoint / most);
  const layer = symbols(rows, { ...groupShape(group), size }, [hueOf(group)]);
  return { ...layer, mark: { ...layer.mark, opacity: 0.65 } };
}

function hueOf(group: number): string {
  return groupStyles(group).hue;
}

interface Legend {
  readonly rows: readonly { readonly text: string; readonly x: number; readonly y: number }[];
  /** Pixels that it takes above the plot. */
  readonly above: number;
}

/** Beside the plot where there is room, else above it. */
function legendOf(
  { groups, split }: AcuityScatter,
  { side, width }: { readonly side: number; readonly width: number },
): Legend {
  if (!split) return { rows: [], above: 0 };
  const besideX = side + right + 16;
  const isBeside = width - left - besideX >= 150;
  const above = isBeside ? 0 : groups.length * legendLine + 6;
  const x = isBeside ? besideX : -left;
  const room = { size: textSize.label, width: width - left - x - 24 };
  const first = isBeside ? 12 : -40 - above + 14;
  const rows = groups.map((label, group) => ({
    text: fitText(plainText(label), room),
    x,
    y: first + group * legendLine,
  }));
  return { rows, above };
}

function legendLayers({ rows }: Legend): readonly Layer[] {
  return rows.flatMap(({ text, x, y }, group) => [
    symbols([{ x: x + 7, y }], { ...groupShape(group), size: 60 }, [hueOf(group)]),
    texts([{ x: x + 20, y: y + 4, text }], ["plain"]),
  ]);
}

function describe({ points: all, table, lowVision }: AcuityScatter): string {
  const number = (test: (change: number) => boolean): number =>
    all
      .filter(({ before, after }) => test(after - before))
      .reduce((sum, { eyes }) => sum + eyes, 0);
  const total = number(() => true);
  const hair = 1e-9;
  const gained = number((change) => change <= -threeLines + hair);
  const lost = number((change) => change >= threeLines - hair);
  const low =
    lowVision.length === 0
      ? ""
      : ` Low vision by the table of ${plainText(table)}: ${lowVision
          .map(({ label, logMar }) => `${label} ${logMar.toFixed(2)}`)
          .join(", ")}.`;
  return (
    `Acuity after over acuity before for ${total} ${total === 1 ? "eye" : "eyes"}: ${gained} gained ` +
    `0.3 logMAR or more, ${lost} lost as much, ${total - gained - lost} changed by less.${low}`
  );
}
