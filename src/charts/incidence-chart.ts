import {
  type AtRiskTable,
  atRiskHeight,
  atRiskLayers,
  atRiskTable,
  type CurvesAtRisk,
} from "./at-risk-table.ts";
import type { Chart, Margins } from "./chart.ts";
import {
  endOf,
  type IncidenceCurve,
  type IncidenceCurves,
  incidenceOn,
  stepOn,
} from "./incidence-curves.ts";
import { hasIncidenceBands, incidenceAxis, incidenceLayers } from "./incidence-layers.ts";
import { type Layer, layered, type PlotSize, segments, texts } from "./layers.ts";
import type { PercentAxis } from "./percent-axis.ts";
import { percentText } from "./percent-text.ts";
import { plainText } from "./plain-text.ts";
import { spreadLabels } from "./spread-labels.ts";
import { textWidth, wrapText } from "./text-width.ts";
import { groupStyles, textSize } from "./theme.ts";

const left = 48;
const top = 14;
const font = { size: textSize.label, weight: 600 };
const lineHeight = 15;

/**
 * Curves of the share that has failed, rising from zero: one a cause or one a group, with its last
 * value at its end, intervals as bands where there are one or two, and under the time axis the eyes
 * still at risk of any event.
 */
export function incidenceChart(
  incidence: IncidenceCurves,
  size: { readonly width: number; readonly lower?: number },
): Chart {
  const layout = layoutOf(incidence, size);
  const { plot, margins } = layout;
  return {
    kind: "incidence",
    spec: layered(plot, margins, [
      ...incidenceLayers(incidence, layout.axis),
      ...labelLayers(incidence, layout),
      ...atRiskLayers(layout.table, plot, layout),
      note(incidence, layout),
    ]),
    description: describe(incidence),
    width: margins.left + plot.width + margins.right,
    height: margins.top + plot.height + margins.bottom,
    columns: [
      { field: "curve", label: "Curve" },
      { field: "day", label: "Day" },
      { field: "incidence", label: "Cumulative incidence" },
      { field: "lower", label: "Lower limit" },
      { field: "upper", label: "Upper limit" },
    ],
    data: incidence.curves.flatMap((curve) =>
      curve.steps
        .filter(({ time }) => time <= incidence.until)
        .map(({ time, incidence: share, lower, upper }) => ({
          curve: curve.label,
          day: time,
          incidence: share,
          lower,
          upper,
        })),
    ),
  };
}

interface Layout {
  readonly axis: PercentAxis;
  readonly plot: PlotSize;
  readonly margins: Margins;
  readonly table: AtRiskTable;
  readonly labels: readonly (readonly string[])[];
  readonly gap: number;
  readonly labelRoom: number;
}

function layoutOf(
  incidence: IncidenceCurves,
  { width, lower = 0 }: { readonly width: number; readonly lower?: number },
): Layout {
  const widestRoom = Math.floor(width * 0.36);
  const labels = incidence.curves.map((curve) => labelLines(curve, incidence.until, widestRoom));
  const widths = [
    ...labels.flat().map((text) => textWidth(text, font)),
    ...incidence.groups.map(({ label }) => textWidth(plainText(label), font)),
  ];
  const labelRoom = Math.min(widestRoom, Math.ceil(Math.max(40, ...widths)) + 2);
  const atRisk: CurvesAtRisk = {
    ...incidence,
    words: { share: "", atRisk: "eyes still at risk and followed" },
  };
  const draft = atRiskTable(atRisk, width - left - labelRoom - 20);
  const gap = Math.ceil(Math.max(12, draft.halfWidth + 9));
  const plotWidth = Math.max(80, width - left - gap - labelRoom);
  const needed = labels.reduce((sum, lines) => sum + lines.length * lineHeight + 3, 0);
  const wished = Math.max(110, Math.min(260, Math.max(170, Math.round(width * 0.3))) - lower);
  const plot = { width: plotWidth, height: Math.max(wished, Math.ceil(needed)) };
  const table = atRiskTable(atRisk, plotWidth);
  const bottom = atRiskHeight(table, labelRoom) + (hasIncidenceBands(incidence) ? 18 : 3);
  const margins = { left, right: gap + labelRoom, top, bottom };
  return { axis: incidenceAxis(incidence), plot, margins, table, labels, gap, labelRoom };
}

function labelLines(curve: IncidenceCurve, until: number, room: number): readonly string[] {
  const value = ` ${percentText(incidenceOn(curve, endOf(curve, until)), 1)}`;
  const width = room - textWidth(value, font);
  const lines = [...wrapText(plainText(curve.label), 2, { ...font, width })];
  lines.push(`${lines.pop() ?? ""}${value}`);
  return lines;
}

/** Labels right of the plot, none over another, and lines from the ends of curves to them. */
function labelLayers({ curves, until }: IncidenceCurves, layout: Layout): readonly Layer[] {
  const { plot, axis, labels, gap } = layout;
  const ends = curves.map((curve) => {
    const day = endOf(curve, until);
    return {
      x: (day / until) * plot.width,
      y: (1 - Math.min(1, incidenceOn(curve, day) / axis.max)) * plot.height,
    };
  });
  const centres = spreadLabels(
    labels.map((lines, i) => ({ wanted: ends[i]!.y, height: lines.length * lineHeight + 3 })),
    { top: -lineHeight / 2, bottom: plot.height + lineHeight / 2 },
  );
  return curves.flatMap(({ pick }, i) => {
    const hue = groupStyles(i).hue;
    const [end, centre, lines] = [ends[i]!, centres[i]!, labels[i]!];
    const y = centre - ((lines.length - 1) * lineHeight) / 2 + font.size * 0.34;
    const reach = { x: end.x, y: end.y, x2: plot.width, y2: end.y };
    const leader = { x: plot.width + 2, y: end.y, x2: plot.width + gap - 3, y2: centre };
    return [
      segments(end.x < plot.width - 1 ? [reach] : [], [hue, "reach"]),
      segments(Math.abs(centre - end.y) > 2 ? [leader] : [], [hue, "leader"]),
      texts(
        lines.map((text, line) => ({
          x: plot.width + gap,
          y: y + line * lineHeight,
          text,
          pick,
        })),
        [hue, "strong"],
      ),
    ];
  });
}

function note(incidence: IncidenceCurves, { plot, margins }: Layout): Layer {
  const percent = Number(((incidence.level ?? 0.95) * 100).toFixed(1));
  const rows = hasIncidenceBands(incidence)
    ? [{ x: 0, y: plot.height + margins.bottom - 5, text: `shaded: ${percent}% intervals` }]
    : [];
  return texts(rows, ["quiet", "small"]);
}

/** The curves in words: the value of each on its last day with its interval. */
function describe({ curves, measure, until, level = 0.95 }: IncidenceCurves): string {
  const percent = Number((level * 100).toFixed(1));
  const sentences = curves.map((curve) => {
    const day = endOf(curve, until);
    const step = stepOn(curve.steps, day);
    const limits =
      step === undefined || step.lower === null || step.upper === null
        ? ""
        : ` (${percent}% interval ${percentText(step.lower, 1)} to ${percentText(step.upper, 1)})`;
    const share = percentText(incidenceOn(curve, day), 1);
    return `${plainText(curve.label)}: ${share} at day ${day}${limits}.`;
  });
  const what = `Cumulative incidence by time since operation: ${plainText(measure)}.`;
  return [what, ...sentences].join(" ");
}
