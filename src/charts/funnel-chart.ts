import type { Chart, Margins } from "./chart.ts";
import { ratioText } from "./effect-intervals.ts";
import type { Funnel, FunnelLevel, FunnelPoint } from "./funnel.ts";
import { type Layer, layered, type PlotSize, segments, symbols, texts } from "./layers.ts";
import { lineLayer } from "./line-layer.ts";
import { percentText } from "./percent-text.ts";
import { plainText } from "./plain-text.ts";
import { fitText, textWidth } from "./text-width.ts";
import { smallTextRoom, textSize } from "./theme.ts";
import { type ValueAxis, valueAxis } from "./value-axis.ts";

const margins: Margins = { left: 48, right: 14, top: 28, bottom: 46 };

/**
 * Rates, or observed over expected, over the size of each unit, inside limits that narrow with it:
 * the outer limits are dashed, the target dotted. Points are alike but for the reader's own, which
 * is ringed and named; no other name is drawn unless it was asked for.
 */
export function funnelChart(
  funnel: Funnel,
  { width, lower = 0 }: { readonly width: number; readonly lower?: number },
): Chart {
  const inner = width - margins.left - margins.right;
  const own = Math.min(340, Math.max(220, Math.round(inner * 0.56)));
  const plot = { width: inner, height: Math.max(160, own - lower) };
  const axes = axesOf(funnel, plot);
  return {
    kind: "funnel",
    spec: layered(plot, margins, [
      ...axisLayers(funnel, axes),
      ...funnel.limits.flatMap((level, i) => limitLayers(level, i, axes)),
      ...pointLayers(funnel.points, axes),
    ]),
    description: describe(funnel),
    width,
    height: margins.top + plot.height + margins.bottom,
    columns: [
      { field: "group", label: "Group" },
      { field: "size", label: plainText(funnel.across) },
      { field: "value", label: funnel.scale === "share" ? "Rate" : "Observed over expected" },
    ],
    data: funnel.points.map(({ label, size, value }) => ({ group: label ?? null, size, value })),
  };
}

interface Axes {
  readonly plot: PlotSize;
  readonly across: ValueAxis;
  readonly up: ValueAxis;
  readonly x: (size: number) => number;
  readonly y: (value: number) => number;
}

function axesOf({ points, limits, target, scale }: Funnel, plot: PlotSize): Axes {
  const sizes = points.map(({ size }) => size);
  const largest = Math.max(1, ...sizes);
  const wide = limits.flatMap((level) =>
    level.points.filter(({ size }) => size >= largest / 4).map(({ upper }) => upper),
  );
  const most = scale === "share" ? 1 : Number.POSITIVE_INFINITY;
  const values = points.map(({ value }) => value);
  const highest = Math.min(most, Math.max(target * 1.5, ...values.map((v) => v * 1.06), ...wide));
  const kind = scale === "share" ? "share" : "number";
  const across = valueAxis(sizes, {
    kind: "number",
    fromZero: true,
    ticks: Math.max(3, Math.floor(plot.width / 90)),
  });
  const up = valueAxis([highest], { kind, fromZero: true, ticks: 5 });
  const top = scale === "share" ? Math.min(1, up.max) : up.max;
  return {
    plot,
    across,
    up,
    x: (size) => (size / across.max) * plot.width,
    y: (value) => plot.height - (Math.min(top, value) / top) * plot.height,
  };
}

function axisLayers(funnel: Funnel, { plot, across, up, x, y }: Axes): readonly Layer[] {
  const title =
    funnel.scale === "share" ? `share that ${plainText(funnel.counted)}` : "observed over expected";
  const ticks = up.ticks.filter(
    ({ value }) => y(value) >= -1e-9 && (funnel.scale === "ratio" || value <= 1),
  );
  const target = `dotted: ${plainText(funnel.targetLabel)}`;
  return [
    segments(
      ticks.map(({ value }) => ({ x: 0, y: y(value), x2: plot.width, y2: y(value) })),
      ["hairline"],
    ),
    segments([{ x: 0, y: y(funnel.target), x2: plot.width, y2: y(funnel.target) }], ["standard"]),
    texts(
      ticks.map(({ value, text }) => ({ x: -8, y: y(value) + 4, text })),
      ["quiet"],
      "right",
    ),
    texts(
      across.ticks.map(({ value, text }) => ({ x: x(value), y: plot.height + 18, text })),
      ["quiet"],
      "center",
    ),
    texts([{ x: -margins.left + 4, y: -12, text: title }], ["quiet", "small"]),
    texts([{ x: plot.width, y: -12, text: target }], ["quiet", "small"], "right"),
    texts(
      [
        {
          x: plot.width,
          y: plot.height + 38,
          text: fitText(plainText(funnel.across), { size: smallTextRoom, width: plot.width }),
        },
      ],
      ["quiet", "small"],
      "right",
    ),
  ];
}

/** The outermost limits are dashed; each is named at its right end. */
function limitLayers(
  { level, points }: FunnelLevel,
  index: number,
  { x, y, plot }: Axes,
): readonly Layer[] {
  const style = index === 0 ? ["axis"] : ["axis", "dash-1"];
  const side = (of: "lower" | "upper") =>
    points.map((point) => ({ x: x(point.size), y: y(point[of]) }));
  const last = points.at(-1);
  const label = levelText(level);
  return [
    lineLayer(
      side("upper").filter((point, i, all) => point.y > 0 || (all[i + 1]?.y ?? 0) > 0),
      style,
    ),
    lineLayer(
      side("lower").filter((point) => point.y < plot.height),
      style,
    ),
    texts(
      last === undefined ? [] : [{ x: x(last.size) - 2, y: y(last.upper) - 8, text: label }],
      ["quiet", "small"],
      "right",
    ),
  ];
}

function pointLayers(points: readonly FunnelPoint[], { x, y, plot }: Axes): readonly Layer[] {
  const at = (some: readonly FunnelPoint[]) =>
    some.map(({ size, value, pick }) => ({ x: x(size), y: y(value), pick }));
  const own = points.filter(({ isOwn }) => isOwn);
  const named = points.flatMap(({ label, size, value, isOwn, pick }) => {
    if (label === undefined) return [];
    const text = plainText(label);
    const wide = textWidth(text, { size: textSize.label, weight: 600 });
    const right = x(size) + 9 + wide <= plot.width;
    return [{ x: right ? x(size) + 9 : x(size) - 9 - wide, y: y(value) + 4, text, pick, isOwn }];
  });
  const strip = (isOwn: boolean) =>
    named.filter((each) => each.isOwn === isOwn).map(({ isOwn: _, ...row }) => row);
  return [
    symbols(at(points.filter(({ isOwn }) => !isOwn)), { shape: "circle", size: 52 }, ["quiet"]),
    symbols(at(own), { shape: "circle", size: 190 }, ["box"]),
    symbols(at(own), { shape: "circle", size: 90 }, ["plain"]),
    texts(strip(false), ["plain"]),
    texts(strip(true), ["plain", "strong"]),
  ];
}

/** Each point in words, without a name where none is drawn. */
function describe({ points, limits, target, scale, across, counted, targetLabel }: Funnel): string {
  const text = scale === "share" ? (v: number) => percentText(v, 1) : ratioText;
  const levels = limits.map(({ level }) => levelText(level)).join(" and ");
  const each = points.map(
    ({ label, size, value, isOwn }, i) =>
      `${label === undefined ? `Point ${i + 1}` : plainText(label)}${isOwn ? " (own)" : ""}: ` +
      `${Number(size.toFixed(1))}, ${text(value)}.`,
  );
  const what = scale === "share" ? `Share that ${plainText(counted)}` : "Observed over expected";
  return [
    `${what} over ${plainText(across)}, around ${plainText(targetLabel)} (${text(target)}) with ${levels} limits.`,
    ...each,
  ].join(" ");
}

function levelText(level: number): string {
  return `${Number((level * 100).toFixed(2))}%`;
}
