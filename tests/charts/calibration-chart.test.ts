import { describe, expect, it } from "vitest";
import { calibrationChart } from "../../src/charts/calibration-chart.ts";
import type { Layer } from "../../src/charts/layers.ts";
import { exampleCalibration } from "./example-charts.ts";

describe("the calibration chart", () => {
  const chart = calibrationChart(exampleCalibration, { width: 780 });
  const { layer } = chart.spec as { readonly layer: readonly Layer[] };

  it("has one scale both ways: a point on the line failed as often as predicted", () => {
    const [, even] = layer.find(({ mark }) => mark.type === "point")!.data.values;
    const { width, height } = chart.spec as { readonly width: number; readonly height: number };
    expect(width).toBe(height);
    expect(Number(even?.x)).toBeCloseTo(height - Number(even?.y), 9);
  });

  it("has description, rows and picks from the same numbers", () => {
    expect(chart.description).toBe(
      "Observed against predicted risk. Predicted 5.0%: 1 of 20 failed, 5.0% (95% interval 0.9% to " +
        "23.6%). Predicted 20.0%: 4 of 20 failed, 20.0% (95% interval 8.1% to 41.6%). Smoothed, the observed risk goes from 3.0% where the least " +
        "was predicted to 24.0% where the most was.",
    );
    expect(chart.columns.map(({ field }) => field)).toEqual(Object.keys(chart.data[0]!));
    const picks = layer.flatMap(({ data }) => data.values).map((row) => row.pick);
    expect(picks).toContain("c0");
  });

  it("draws the smooth curve dashed, apart from the line of agreement", () => {
    const [curve] = layer.filter(({ mark }) => mark.type === "line");
    expect(curve?.mark.style).toEqual(["dash-1", "failed"]);
    expect(curve?.data.values).toHaveLength(3);
    const { curve: _, ...without } = exampleCalibration;
    const plain = calibrationChart(without, { width: 780 });
    expect(JSON.stringify(plain.spec)).not.toContain('"line"');
    expect(plain.description).not.toContain("Smoothed");
  });

  it("fits a narrow room", () => {
    expect(calibrationChart(exampleCalibration, { width: 300 }).width).toBe(300);
  });
});
