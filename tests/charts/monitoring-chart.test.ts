import { describe, expect, it } from "vitest";
import type { Layer } from "../../src/charts/layers.ts";
import { monitoringChart } from "../../src/charts/monitoring-chart.ts";
import { paperTheme } from "../../src/charts/theme.ts";
import { chartToSvg } from "../../src/charts/to-svg.ts";
import { hostileLabels } from "./example-charts.ts";
import { exampleMonitoring } from "./example-monitoring.ts";

const layersOf = (spec: object) => (spec as { readonly layer: readonly Layer[] }).layer;
const rowsOf = (spec: object) => layersOf(spec).flatMap(({ data }) => data.values);

describe.each([780, 390, 300])("monitoring at %i pixels", (width) => {
  const chart = monitoringChart(exampleMonitoring, { width });
  const {
    padding,
    width: inner,
    height,
  } = chart.spec as {
    readonly padding: { readonly left: number; readonly right: number };
    readonly width: number;
    readonly height: number;
  };

  it("is as wide as it is told, and everything drawn stays inside", () => {
    expect(padding.left + inner + padding.right).toBe(width);
    for (const { x, y } of rowsOf(chart.spec)) {
      expect(Number(x)).toBeGreaterThanOrEqual(-padding.left);
      expect(Number(x)).toBeLessThanOrEqual(inner + padding.right);
      expect(Number(y)).toBeGreaterThanOrEqual(-4);
      expect(Number(y)).toBeLessThanOrEqual(height + 40);
    }
  });

  it("opens failures and signals", () => {
    const picks = new Set(rowsOf(chart.spec).map(({ pick }) => pick));
    for (const pick of ["eye0", "eye2", "worse:2"]) expect(picks).toContain(pick);
  });
});

describe("monitoring in words and as a drawing", () => {
  it("says where lines end, what the limits are, what signalled and what was set back", () => {
    expect(monitoringChart(exampleMonitoring, { width: 780 }).description).toBe(
      "5 places, operations in order, by month. sum of log-likelihood: up for doubled odds, down for halved odds: " +
        "at the end 2.4; dotted limit 2.30; dotted limit 2.10; signal at place 3, 2025-02-20; reset 2025-03-01 before 2025-03. " +
        "failure rate: 2025-02 20%; dotted 13.0%.",
    );
  });

  it("draws no limit where there is none, nor one beyond the axis", () => {
    const chart = monitoringChart(exampleMonitoring, { width: 780 });
    const bands = layersOf(chart.spec).filter(
      ({ mark }) => mark.type === "rule" && String(mark.style) === "axis",
    );
    // one upper, one lower, and the ticks at the foot
    expect(bands.map(({ data }) => data.values.length).slice(0, 2)).toEqual([1, 1]);
  });

  it("draws hostile places and labels as text", async () => {
    const [panel] = exampleMonitoring.panels;
    if (panel === undefined) throw new Error("no panel");
    const chart = monitoringChart(
      {
        ...exampleMonitoring,
        places: hostileLabels,
        panels: hostileLabels.map((title) => ({
          ...panel,
          title,
          breaks: [{ at: 2, label: title }],
        })),
      },
      { width: 390 },
    );
    const svg = await chartToSvg(chart, { theme: paperTheme, prefix: "c1" });
    expect(svg).not.toContain("<script>");
  });
});
