import { type Layer, segments, symbols, texts } from "./layers.ts";
import { lineLayer } from "./line-layer.ts";
import type { MonitoringPanel, MonitoringSignal } from "./monitoring.ts";
import { plainText } from "./plain-text.ts";
import { spreadLabels } from "./spread-labels.ts";
import { fitText, textWidth } from "./text-width.ts";
import { smallTextRoom, textSize } from "./theme.ts";
import { type ValueAxis, valueAxis } from "./value-axis.ts";

/** Where a panel stands, in pixels of the plot. */
export interface PanelPlace {
  readonly top: number;
  readonly height: number;
  readonly width: number;
  readonly x: (at: number) => number;
}

interface Laid extends PanelPlace {
  readonly axis: ValueAxis;
  readonly y: (value: number) => number;
}

/** One panel: hairlines and labels, limits and references, lines, dots and signals. */
export function panelLayers(panel: MonitoringPanel, place: PanelPlace): readonly Layer[] {
  const laid = scaled(panel, place);
  return [
    ...gridLayers(panel, laid),
    ...bandLayers(panel, laid),
    ...referenceLayers(panel, laid),
    ...breakLayers(panel, laid),
    ...panel.lines.map(({ points, isDashed }) =>
      lineLayer(
        points.map(({ at, value }) => ({ x: laid.x(at), y: laid.y(value) })),
        isDashed === true ? ["plain", "dash-1"] : ["plain"],
      ),
    ),
    ...dotLayers(panel, laid),
    ...signalLayers(panel, laid),
  ];
}

function scaled(panel: MonitoringPanel, place: PanelPlace): Laid {
  const { kind, lines, dots, references, band = [], signals } = panel;
  const isShare = kind === "share";
  const values = [
    ...lines.flatMap(({ points }) => points.map(({ value }) => value)),
    ...dots.map(({ value }) => value),
    ...references.map(({ value }) => value),
    // room for what is written over a signal
    ...signals.map(({ value }) => 1.12 * value),
    ...band.flatMap(({ lower, upper }) => (isShare ? [] : [lower ?? 0, upper ?? 0])),
  ];
  const axis = valueAxis(isShare ? [Math.min(1, 1.1 * Math.max(0.05, ...values))] : values, {
    kind: isShare ? "share" : "number",
    fromZero: true,
    ticks: 5,
  });
  const span = axis.max - axis.min;
  const within = (value: number): number => Math.min(axis.max, Math.max(axis.min, value));
  const y = (value: number): number =>
    place.top + place.height - ((within(value) - axis.min) / span) * place.height;
  return { ...place, axis, y };
}

function gridLayers({ title }: MonitoringPanel, { axis, y, width, top }: Laid): readonly Layer[] {
  const lines = axis.ticks.map(({ value }) => ({ x: 0, y: y(value), x2: width, y2: y(value) }));
  const room = { size: smallTextRoom, width: width + 44 };
  return [
    segments(lines, ["hairline"]),
    texts(
      axis.ticks.map(({ value, text }) => ({
        x: -8,
        y: y(value) + 4,
        text: text.replace("-", "−"),
      })),
      ["quiet"],
      "right",
    ),
    texts([{ x: -44, y: top - 11, text: fitText(plainText(title), room) }], ["quiet", "small"]),
  ];
}

/** Limits from place to place, as two stepped lines; one beyond the axis is not drawn. */
function bandLayers({ band = [] }: MonitoringPanel, { x, y, axis }: Laid): readonly Layer[] {
  const side = (of: "lower" | "upper") =>
    segments(
      band.flatMap((each) => {
        const value = each[of];
        if (value === null || value > axis.max) return [];
        return [{ x: x(each.at - 0.5), y: y(value), x2: x(each.at + 0.5), y2: y(value) }];
      }),
      ["axis"],
    );
  return [side("upper"), side("lower")];
}

/** Labels stand at the right of the plot, apart from each other. */
function referenceLayers({ references }: MonitoringPanel, laid: Laid): readonly Layer[] {
  const { x, y, width, top, height } = laid;
  const rows = references.map(({ value, from, to }) => ({
    x: from === undefined ? 0 : x(from),
    y: y(value),
    x2: to === undefined ? width : x(to),
    y2: y(value),
  }));
  const named = references.flatMap(({ value, label }) =>
    label === undefined ? [] : [{ wanted: y(value), text: plainText(label), height: 14 }],
  );
  const centres = spreadLabels(named, { top: top - 7, bottom: top + height + 7 });
  const labels = named.map(({ text }, i) => ({ x: width + 6, y: (centres[i] ?? 0) + 4, text }));
  return [segments(rows, ["standard"]), texts(labels, ["quiet", "small"])];
}

/** The room that the labels at the right of any panel need. */
export function referenceRoom(panels: readonly MonitoringPanel[]): number {
  const labels = panels.flatMap(({ references }) => references.flatMap(({ label }) => label ?? []));
  if (labels.length === 0) return 12;
  const widths = labels.map((label) => textWidth(plainText(label), { size: textSize.small }));
  return Math.ceil(Math.max(...widths)) + 10;
}

function breakLayers(
  { breaks }: MonitoringPanel,
  { x, top, height, width }: Laid,
): readonly Layer[] {
  const labels = breaks.map(({ at, label }) => {
    const text = plainText(label);
    const wide = textWidth(text, { size: textSize.small });
    return { x: Math.min(x(at) + 4, Math.max(0, width - wide)), y: top + height - 6, text };
  });
  return [
    segments(
      breaks.map(({ at }) => ({ x: x(at), y: top, x2: x(at), y2: top + height })),
      ["axis", "dash-1"],
    ),
    texts(labels, ["quiet", "small"]),
  ];
}

function dotLayers({ dots }: MonitoringPanel, { x, y }: Laid): readonly Layer[] {
  const of = (tone: "failed" | "plain") =>
    dots
      .filter((dot) => dot.tone === tone)
      .map(({ at, value, pick }) => ({ x: x(at), y: y(value), pick }));
  return [
    symbols(of("plain"), { shape: "circle", size: 40 }, ["plain"]),
    symbols(of("failed"), { shape: "square", size: 40 }, ["failed"]),
  ];
}

function signalLayers({ signals }: MonitoringPanel, { x, y, width }: Laid): readonly Layer[] {
  const ring = (each: MonitoringSignal) => ({ x: x(each.at), y: y(each.value), pick: each.pick });
  const labels = signals.map(({ at, value, label, pick }) => {
    const text = plainText(label);
    const wide = textWidth(text, { size: textSize.small, weight: 600 });
    const left = Math.min(Math.max(0, x(at) - wide / 2), width - wide);
    return { x: left, y: y(value) + (value < 0 ? 22 : -12), text, pick };
  });
  return [
    symbols(signals.map(ring), { shape: "circle", size: 170 }, ["failed-outline"]),
    texts(labels, ["plain", "strong", "small"]),
  ];
}
