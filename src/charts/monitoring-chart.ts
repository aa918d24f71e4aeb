import type { Chart, Margins } from "./chart.ts";
import { type Layer, layered, segments, texts } from "./layers.ts";
import type { Monitoring, MonitoringPanel } from "./monitoring.ts";
import { describeMonitoring } from "./monitoring-description.ts";
import { type PanelPlace, panelLayers, referenceRoom } from "./monitoring-panel.ts";
import { plainText } from "./plain-text.ts";
import { fitText, textWidth } from "./text-width.ts";
import { smallTextRoom, textSize } from "./theme.ts";

const around = { left: 48, top: 4, bottom: 46 };
const titleHeight = 26;
const gap = 14;

/**
 * Panels over operations in order, or over periods: lines, dots (failures in their colour), limits,
 * signals ringed and dated, and the places where something changed. Nothing is read from colour alone.
 */
export function monitoringChart(
  monitoring: Monitoring,
  { width, lower = 0 }: { readonly width: number; readonly lower?: number },
): Chart {
  const { panels } = monitoring;
  const margins: Margins = { ...around, right: referenceRoom(panels) };
  const inner = width - margins.left - margins.right;
  const own = panels.length === 1 ? 230 : 158;
  const each = Math.max(90, Math.floor(own - lower / panels.length));
  const height = panels.length * (titleHeight + each) + (panels.length - 1) * gap;
  const places = monitoring.places.length;
  const x = (at: number): number => (at / (places + 1)) * inner;
  const laid = panels.map((panel, i): readonly [MonitoringPanel, PanelPlace] => [
    panel,
    { top: i * (titleHeight + each + gap) + titleHeight, height: each, width: inner, x },
  ]);
  return {
    kind: "monitoring",
    spec: layered({ width: inner, height }, margins, [
      ...laid.flatMap(([panel, place]) => panelLayers(panel, place)),
      ...footLayers(monitoring, { width: inner, height, x }),
    ]),
    description: describeMonitoring(monitoring),
    width,
    height: margins.top + height + margins.bottom,
    columns: [
      { field: "panel", label: "Panel" },
      { field: "place", label: plainText(monitoring.across) },
      { field: "value", label: "Value" },
    ],
    data: panels.flatMap(({ title, lines, dots }) => {
      const points = lines.length > 0 ? lines.flatMap((line) => line.points) : dots;
      return points.map(({ at, value }) => ({
        panel: title,
        place: monitoring.places[at - 1] ?? null,
        value,
      }));
    }),
  };
}

/** The places under the lowest panel, thinned to what there is room for. */
function footLayers(
  { places, across }: Monitoring,
  { width, height, x }: { width: number; height: number; x: (at: number) => number },
): readonly Layer[] {
  const labels = places.map(plainText);
  const widest = Math.max(1, ...labels.map((label) => textWidth(label, { size: textSize.label })));
  const room = (widest + 14) / Math.max(1e-9, x(1) - x(0));
  const stride = Math.max(1, Math.ceil(room));
  const ticks = labels.flatMap((text, i) => {
    const at = i + 1;
    const isIn = x(at) - widest / 2 >= 2 - around.left && x(at) + widest / 2 <= width + 10;
    return i % stride === 0 && isIn ? [{ x: x(at), y: height + 20, text }] : [];
  });
  const title = fitText(plainText(across), { size: smallTextRoom, width });
  return [
    texts(ticks, ["quiet"], "center"),
    segments(
      ticks.map((tick) => ({ x: tick.x, y: height, x2: tick.x, y2: height + 5 })),
      ["axis"],
    ),
    texts([{ x: width, y: height + 39, text: title }], ["quiet", "small"], "right"),
  ];
}
