import type { CalibrationPoint, CalibrationPoints } from "./calibration-points.ts";
import type { Chart } from "./chart.ts";
import { type Layer, layered, type PlotSize, segments, symbols, texts } from "./layers.ts";
import { lineLayer } from "./line-layer.ts";
import { type PercentAxis, percentAxis } from "./percent-axis.ts";
import { percentText } from "./percent-text.ts";
import { plainText } from "./plain-text.ts";

const margins = { left: 52, right: 16, top: 22, bottom: 46 };

/**
 * Observed risk with its interval over predicted risk, a point a group of eyes; on the dotted line
 * as many failed as were predicted, on the dashed one as many as a smooth curve through all eyes
 * has. Both axes are the same.
 */
export function calibrationChart(
  calibration: CalibrationPoints,
  { width, lower = 0 }: { readonly width: number; readonly lower?: number },
): Chart {
  const own = Math.min(width - margins.left - margins.right, 340);
  const side = Math.min(own, Math.max(200, own - lower));
  const plot = { width: side, height: side };
  const axis = percentAxis([
    ...calibration.points.flatMap(({ predicted, upper }) => [predicted, upper]),
    ...(calibration.curve ?? []).flatMap(({ predicted, observed }) => [predicted, observed]),
  ]);
  return {
    kind: "calibration",
    spec: layered(plot, margins, [
      ...axisLayers(axis, plot, calibration),
      ...curveLayers(calibration, axis, plot),
      ...pointLayers(calibration, axis, plot),
    ]),
    description: describe(calibration),
    width: margins.left + side + margins.right,
    height: margins.top + side + margins.bottom,
    columns: [
      { field: "predicted", label: "Predicted risk" },
      { field: "events", label: plainText(calibration.counted) },
      { field: "eyes", label: "Eyes" },
      { field: "observed", label: "Observed risk" },
      { field: "lower", label: "Lower limit" },
      { field: "upper", label: "Upper limit" },
    ],
    data: calibration.points.map(({ predicted, events, eyes, observed, lower, upper }) => ({
      predicted,
      events,
      eyes,
      observed,
      lower,
      upper,
    })),
  };
}

function axisLayers(
  { max, ticks }: PercentAxis,
  { width, height }: PlotSize,
  { counted }: CalibrationPoints,
): readonly Layer[] {
  const at = (share: number): number => (share / max) * width;
  const label = (share: number): string => percentText(share, max < 0.05 && share > 0 ? 1 : 0);
  return [
    segments(
      ticks.map((tick) => ({ x: 0, y: height - at(tick), x2: width, y2: height - at(tick) })),
      ["hairline"],
    ),
    segments([{ x: 0, y: height, x2: width, y2: 0 }], ["standard"]),
    texts(
      ticks.map((tick) => ({ x: -8, y: height - at(tick) + 4, text: label(tick) })),
      ["quiet"],
      "right",
    ),
    texts(
      ticks.map((tick) => ({ x: at(tick), y: height + 18, text: label(tick) })),
      ["quiet"],
      "center",
    ),
    texts([{ x: 0, y: -9, text: `share that ${plainText(counted)}` }], ["quiet", "small"]),
    texts([{ x: width, y: height + 38, text: "predicted risk" }], ["quiet", "small"], "right"),
  ];
}

function curveLayers(
  { curve = [] }: CalibrationPoints,
  { max }: PercentAxis,
  { width, height }: PlotSize,
): readonly Layer[] {
  const points = curve.map(({ predicted, observed }) => ({
    x: (predicted / max) * width,
    y: height - (Math.min(max, observed) / max) * height,
  }));
  return [lineLayer(points, ["dash-1", "failed"])];
}

function pointLayers(
  { points }: CalibrationPoints,
  { max }: PercentAxis,
  { width, height }: PlotSize,
): readonly Layer[] {
  const x = ({ predicted }: CalibrationPoint): number => (predicted / max) * width;
  const y = (share: number): number => height - (Math.min(max, share) / max) * height;
  return [
    segments(
      points.map((point) => ({
        x: x(point),
        y: y(point.upper),
        x2: x(point),
        y2: y(point.lower),
        pick: point.pick,
      })),
      ["interval", "failed"],
    ),
    symbols(
      points.map((point) => ({ x: x(point), y: y(point.observed), pick: point.pick })),
      { shape: "square", size: 64 },
      ["failed"],
    ),
  ];
}

/** Each group in words, lowest predicted risk first. */
function describe({ points, curve = [], counted, level = 0.95 }: CalibrationPoints): string {
  const percent = Number((level * 100).toFixed(1));
  const sentences = points.map(
    ({ predicted, events, eyes, observed, lower, upper }) =>
      `Predicted ${percentText(predicted, 1)}: ${events} of ${eyes} ${plainText(counted)}, ` +
      `${percentText(observed, 1)} (${percent}% interval ${percentText(lower, 1)} to ${percentText(upper, 1)}).`,
  );
  const [first, last] = [curve[0], curve.at(-1)];
  const smooth =
    first === undefined || last === undefined
      ? []
      : [
          `Smoothed, the observed risk goes from ${percentText(first.observed, 1)} where the least ` +
            `was predicted to ${percentText(last.observed, 1)} where the most was.`,
        ];
  return ["Observed against predicted risk.", ...sentences, ...smooth].join(" ");
}
