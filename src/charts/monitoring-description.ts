import type { Monitoring, MonitoringPanel } from "./monitoring.ts";
import { plainText } from "./plain-text.ts";
import { valueLabel } from "./value-axis.ts";

/** What is drawn, in words: where each panel ends, its limits, and what passed them. */
export function describeMonitoring({ panels, places, across }: Monitoring): string {
  const head = `${places.length} places, ${plainText(across)}.`;
  return [head, ...panels.map((panel) => describePanel(panel, places))].join(" ");
}

function describePanel(panel: MonitoringPanel, places: readonly string[]): string {
  const { title, lines, dots, references, signals, breaks, kind } = panel;
  const text = (value: number) => valueLabel(Number(value.toPrecision(3)), kind);
  const place = (at: number) => plainText(places[at - 1] ?? `place ${at}`);
  const ends = lines.flatMap(({ points }) => {
    const last = points.at(-1);
    return last === undefined ? [] : [`at the end ${text(last.value)}`];
  });
  const values = lines.length > 0 ? [] : dots.map(({ at, value }) => `${place(at)} ${text(value)}`);
  const parts = [
    ...ends,
    ...values,
    ...references.flatMap(({ label }) =>
      label === undefined ? [] : [`dotted ${plainText(label)}`],
    ),
    ...signals.map(({ at, label }) => `signal at place ${at}, ${plainText(label)}`),
    ...breaks.map(({ label, at }) => `${plainText(label)} before ${place(Math.ceil(at))}`),
  ];
  return `${plainText(title)}: ${parts.length === 0 ? "nothing" : parts.join("; ")}.`;
}
