import { describe, expect, it } from "vitest";
import { effectAxis } from "../../src/charts/effect-axis.ts";
import { effectChart } from "../../src/charts/effect-chart.ts";
import { type EffectIntervals, pointsText, ratioText } from "../../src/charts/effect-intervals.ts";
import type { Layer } from "../../src/charts/layers.ts";
import { exampleEffects } from "./example-charts.ts";

const differences: EffectIntervals = {
  scale: "difference",
  measure: "difference, points",
  counted: "failed",
  rows: [{ label: "buckle", count: "9 of 70", estimate: -0.017, lower: -0.081, upper: 0.042 }],
};

describe("the effect chart", () => {
  const chart = effectChart(exampleEffects, { width: 780 });
  const { layer } = chart.spec as { readonly layer: readonly Layer[] };
  const withStyle = (type: string, style: string): Layer =>
    layer.find(
      ({ mark }) => mark.type === type && (mark.style as readonly string[]).includes(style),
    )!;

  it("says in its description and in its rows what it was handed", () => {
    expect(chart.description).toBe(
      "odds ratio. PVR B or C: 22 of 80, 2.07 (1.20 – 3.60). PVR none or A: 31 of 240, reference. " +
        "giant tear: 3 of 3, 14.2 (1.10 – 190). buckle: 0 of 30, 0.00 (0.00 – 0.51). " +
        "all together: 1.40 (0.90 – 2.20).",
    );
    expect(chart.columns.map(({ field }) => field)).toEqual(Object.keys(chart.data[0]!));
    expect(chart.data[0]).toEqual({
      label: "PVR B or C",
      count: "22 of 80",
      estimate: 2.07,
      lower: 1.2,
      upper: 3.6,
    });
  });

  it("writes over the names what the rows are split by", () => {
    const split = effectChart({ ...exampleEffects, splitBy: "risk of PVR" }, { width: 780 });
    const values = (split.spec as { layer: readonly Layer[] }).layer.flatMap(({ data }) => [
      ...data.values,
    ]);
    expect(values.find(({ text }) => text === "risk of PVR")).toMatchObject({ x: 0 });
    expect(split.description).toMatch(/^odds ratio by risk of PVR\. /);
  });

  it("places ratios on a log scale around one", () => {
    const line = withStyle("rule", "interval").data.values;
    const none = withStyle("rule", "standard").data.values[0];
    const [pvr] = line;
    const perLog = (Number(pvr?.x2) - Number(pvr?.x)) / Math.log(3.6 / 1.2);
    expect(Number(none?.x)).toBeCloseTo(Number(pvr?.x) - perLog * Math.log(1.2), 6);
  });

  it("ends in an arrow where a limit lies beyond the axis, and sums up in a diamond", () => {
    const shapes = layer.map(({ mark }) => mark.shape);
    expect(shapes).toContain("triangle-right");
    expect(shapes).toContain("triangle-left");
    expect(shapes.filter((shape) => shape === "diamond")).toHaveLength(1);
  });

  it("has nothing without a number drawn", () => {
    const squares = layer.find(({ mark }) => mark.shape === "square");
    expect(squares?.data.values).toHaveLength(3);
  });

  it("places differences evenly around none", () => {
    const axis = effectAxis(differences);
    expect(axis.ticks).toContain(0);
    expect(axis.from).toBeLessThanOrEqual(-0.081);
    expect(axis.to).toBeGreaterThanOrEqual(0.042);
    expect(axis.at(-0.05) - axis.at(-0.1)).toBeCloseTo(axis.at(0.05) - axis.at(0), 12);
    expect(effectChart(differences, { width: 390 }).description).toContain("−1.7 (−8.1 – 4.2)");
  });
});

it.each([
  [0, "0.00"],
  [0.004, "<0.01"],
  [9.99, "9.99"],
  [9.996, "10.0"],
  [99.96, "100"],
  [Number.POSITIVE_INFINITY, "∞"],
])("the ratio %d reads %s", (ratio, text) => {
  expect(ratioText(ratio)).toBe(text);
});

it.each([
  [-0.0861, "−8.6"],
  [-0.0001, "0.0"],
  [0.25, "25.0"],
])("the difference %d reads %s points", (difference, text) => {
  expect(pointsText(difference)).toBe(text);
});
