import {
  type AtRiskTable,
  atRiskHeight,
  atRiskLayers,
  atRiskTable,
  groupNameWidth,
} from "./at-risk-table.ts";
import { type AttachmentCurves, attachmentWords } from "./attachment-curves.ts";
import type { Chart, ChartColumn, ChartRow, Margins } from "./chart.ts";
import { describeCurves } from "./curve-description.ts";
import { bandRuns, isDimmed, lastDay } from "./curve-geometry.ts";
import { type EndLabel, endLabelLayers, endLabels, endLabelsSize } from "./curve-labels.ts";
import { curveLayers, landmarkLayer } from "./curve-layers.ts";
import { endIntervalLayers, endIntervalsWidth, hasBands } from "./end-intervals.ts";
import { type Layer, layered, type PlotSize, texts } from "./layers.ts";
import { percentText } from "./percent-text.ts";
import { type SurvivalAxis, survivalAxis } from "./survival-axis.ts";
import { wrapText } from "./text-width.ts";
import { smallTextRoom } from "./theme.ts";

export interface CurveChartSize {
  /** Pixels, margins included. */
  readonly width: number;
  /** Pixels; grows where the labels at the ends of lines need more. Default by width. */
  readonly plotHeight?: number;
  /** Pixels that the plot is to be lower by, as far as it can. Default 0. */
  readonly lower?: number;
}

const leastPlotHeight = 110;
const left = 48;
const top = 14;
const legendHeight = 15;
const legendFont = { size: smallTextRoom };
const faint = "faint: few eyes remain";

/**
 * Curves of eyes remaining attached: steps with their intervals as bands, censor marks, a label
 * with the last value at each line's end, landmarks, and under the time axis the eyes at risk.
 *
 * Groups differ by hue, dash and label. A curve ends at its last follow-up and is dimmed from
 * `dimFrom`. Censor marks nearer than two pixels are drawn once; `data` and the table keep all.
 */
export function attachmentCurveChart(curves: AttachmentCurves, size: CurveChartSize): Chart {
  const layout = layoutOf(curves, size);
  const { plot, margins } = layout;
  return {
    kind: "attachment-curve",
    spec: layered(plot, margins, layersOf(curves, layout)),
    description: describeCurves(curves),
    width: margins.left + plot.width + margins.right,
    height: margins.top + plot.height + margins.bottom,
    columns: columnsOf(curves),
    data: rowsOf(curves),
  };
}

interface Layout {
  readonly axis: SurvivalAxis;
  readonly plot: PlotSize;
  readonly margins: Margins;
  readonly labels: readonly EndLabel[];
  readonly table: AtRiskTable;
  readonly legend: readonly string[];
  /** Pixels from the plot to the labels on its right, and the room for them. */
  readonly gap: number;
  readonly labelRoom: number;
}

/** Labels on the right take what they need, at most two fifths of the width. */
function layoutOf(
  curves: AttachmentCurves,
  { width, plotHeight, lower = 0 }: CurveChartSize,
): Layout {
  const widestRoom = Math.floor(width * 0.36);
  const labels = endLabels(curves, widestRoom);
  const needed = endLabelsSize(labels);
  const labelRoom = Math.min(
    widestRoom,
    Math.ceil(Math.max(needed.width, groupNameWidth(curves))) + 2,
  );
  const draft = atRiskTable(curves, width - left - labelRoom - 20);
  const gap = Math.ceil(Math.max(10, draft.halfWidth + 9, endIntervalsWidth(curves) + 14));
  const plotWidth = Math.max(80, width - left - gap - labelRoom);
  const own = plotHeight ?? Math.min(260, Math.max(170, Math.round(width * 0.3)));
  const wished = Math.max(leastPlotHeight, own - lower);
  const plot = { width: plotWidth, height: Math.max(wished, Math.ceil(needed.height)) };
  const table = atRiskTable(curves, plotWidth);
  const legend = legendLines(curves, width - left);
  const bottom = atRiskHeight(table, labelRoom) + legend.length * legendHeight + 3;
  const margins = { left, right: gap + labelRoom, top, bottom };
  return { axis: survivalAxis(curves), plot, margins, labels, table, legend, gap, labelRoom };
}

function layersOf(curves: AttachmentCurves, layout: Layout): readonly Layer[] {
  const { axis, plot, labels, table, gap, labelRoom } = layout;
  return [
    landmarkLayer(curves, axis, plot),
    ...curveLayers(curves, axis, plot),
    ...endIntervalLayers(curves, axis.floor, plot),
    ...endLabelLayers(labels, { curves, axis, plot, gap }),
    axisNote(axis, plot),
    ...atRiskLayers(table, plot, { gap, labelRoom }),
    legendLayer(layout),
  ];
}

/** Says that the axis does not begin at zero; the lower left is free, since curves begin at 100%. */
function axisNote({ floor, limitsBelow }: SurvivalAxis, plot: PlotSize): Layer {
  const also = limitsBelow ? "; some limits lie lower" : "";
  const text = `axis begins at ${percentText(floor)}${also}`;
  return texts(floor > 0 ? [{ x: 6, y: plot.height - 7, text }] : [], ["quiet", "small"]);
}

/** At the foot: what bands, bars and faint lines are, as far as there are any. */
function legendLines(curves: AttachmentCurves, width: number): readonly string[] {
  const { groups, until, level = 0.95 } = curves;
  const percent = Number((level * 100).toFixed(1));
  const intervals = hasBands(curves)
    ? `shaded: ${percent}% intervals`
    : `bars: ${percent}% intervals at the ends of curves`;
  const parts = [
    ...(groups.some((group) => bandRuns(group, until).length > 0) ? [intervals] : []),
    ...(groups.some((group) => isDimmed(group, lastDay(group, until))) ? [faint] : []),
  ];
  return parts.length === 0 ? [] : wrapText(parts.join("; "), 2, { ...legendFont, width });
}

function legendLayer({ legend, plot, margins }: Layout): Layer {
  const first = plot.height + margins.bottom - 5 - (legend.length - 1) * legendHeight;
  const rows = legend.map((text, i) => ({ x: 0, y: first + i * legendHeight, text }));
  return texts(rows, ["quiet", "small"]);
}

function columnsOf({ words = attachmentWords }: AttachmentCurves): readonly ChartColumn[] {
  return [
    { field: "group", label: "Group" },
    { field: "day", label: "Day" },
    { field: "survival", label: `${words.share.charAt(0).toUpperCase()}${words.share.slice(1)}` },
    { field: "lower", label: "Lower limit" },
    { field: "upper", label: "Upper limit" },
    { field: "atRisk", label: "At risk" },
  ];
}

function rowsOf({ groups, until }: AttachmentCurves): readonly ChartRow[] {
  return groups.flatMap(({ label, steps }) =>
    steps
      .filter((step) => step.time <= until)
      .map(({ time, survival, lower, upper, atRisk }) => ({
        group: label,
        day: time,
        survival,
        lower,
        upper,
        atRisk,
      })),
  );
}
