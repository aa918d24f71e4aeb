import { describe, expect, it } from "vitest";
import { incidenceChart } from "../../src/charts/incidence-chart.ts";
import { incidenceAxis } from "../../src/charts/incidence-layers.ts";
import type { Layer, TextRow } from "../../src/charts/layers.ts";
import { exampleIncidence } from "./example-charts.ts";

describe("the incidence chart", () => {
  const chart = incidenceChart(exampleIncidence, { width: 780 });
  const { layer } = chart.spec as { readonly layer: readonly Layer[] };
  const texts = layer
    .filter(({ mark }) => mark.type === "text")
    .flatMap(({ data }) => data.values as unknown as readonly TextRow[]);

  it("rises from zero by the steps it was handed, to the last day", () => {
    const line = layer.find(({ mark }) => mark.type === "line");
    expect(line?.data.values).toEqual([
      { time: 0, incidence: 0 },
      { time: 20, incidence: 0.04 },
      { time: 130, incidence: 0.12 },
      { time: 365, incidence: 0.12 },
    ]);
    expect(line?.mark).toMatchObject({ interpolate: "step-after" });
  });

  it("labels each curve at its end with its value", () => {
    const labels = texts.map(({ text }) => text);
    expect(labels).toContain("PVR 12.0%");
    expect(labels).toContain("death 1.5%");
    expect(labels).toContain("eyes still at risk and followed");
    expect(labels).toContain("shaded: 95% intervals");
  });

  it("has an axis from zero over every curve and band", () => {
    expect(incidenceAxis(exampleIncidence).max).toBe(0.2);
    expect(incidenceAxis({ ...exampleIncidence, curves: [] }).max).toBe(0.05);
  });

  it("has description, rows and picks from the same numbers", () => {
    expect(chart.description).toBe(
      "Cumulative incidence by time since operation: causes of failure. PVR: 12.0% at day 365 " +
        "(95% interval 7.0% to 18.0%). death: 1.5% at day 300.",
    );
    expect(chart.data).toHaveLength(3);
    expect(chart.columns.map(({ field }) => field)).toEqual(Object.keys(chart.data[0]!));
    const targets = layer.flatMap(({ data }) => data.values).filter((row) => "pick" in row);
    expect(targets.map((row) => row.pick)).toContain("all:0:1");
  });
});
