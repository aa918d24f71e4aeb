import { describe, expect, it } from "vitest";
import type { AcuityScatter } from "../../src/charts/acuity-scatter.ts";
import { acuityScatterChart } from "../../src/charts/acuity-scatter-chart.ts";
import type { Layer } from "../../src/charts/layers.ts";
import { hostileLabels } from "./example-charts.ts";

const scatter: AcuityScatter = {
  groups: ["on (3)", "off (2)"],
  points: [
    { before: 0.2, after: 0.2, group: 0, eyes: 2, pick: "same" },
    { before: 0.2, after: 0.5, group: 0, eyes: 1 },
    { before: 2.3, after: 0.5, group: 1, eyes: 2 },
  ],
  table: "Bach",
  lowVision: [{ label: "HM", logMar: 2.3 }],
  split: true,
};

describe.each([320, 390, 780])("at %i px", (width) => {
  const chart = acuityScatterChart(scatter, { width });
  const { layer, ...spec } = chart.spec as {
    readonly layer: readonly Layer[];
    readonly width: number;
    readonly height: number;
    readonly padding: { readonly left: number; readonly right: number };
  };
  const points = layer.filter(({ mark }) => mark.opacity !== undefined);

  it("is square, so that the line of no change runs from corner to corner", () => {
    expect(spec.width).toBe(spec.height);
    expect(spec.width + spec.padding.left + spec.padding.right).toBe(width);
    const solid = layer.find(
      ({ mark }) => mark.type === "rule" && (mark.style as string[]).includes("axis"),
    );
    expect(solid?.data.values[0]).toMatchObject({ x: 0, y: spec.height, x2: spec.width, y2: 0 });
  });

  it("puts an eye without change on that line, a better one above it", () => {
    const same = points.flatMap((each) => each.data.values).find(({ pick }) => pick === "same");
    expect(Number(same?.x) + Number(same?.y)).toBeCloseTo(spec.height, 9);
    const better = points.flatMap((each) => each.data.values).find(({ x }) => Number(x) < 100);
    expect(Number(better?.x) + Number(better?.y)).toBeLessThan(spec.height);
  });

  it("makes the area of a point its number of eyes", () => {
    const sizes = points.map(({ mark }) => Number(mark.size));
    expect(Math.max(...sizes)).toBe(2 * Math.min(...sizes));
  });

  it("keeps every point and text within the chart", () => {
    for (const each of layer.flatMap(({ data }) => data.values)) {
      expect(Number(each.x)).toBeGreaterThanOrEqual(-spec.padding.left);
      expect(Number(each.x)).toBeLessThanOrEqual(spec.width + spec.padding.right);
    }
  });
});

it("says its numbers", () => {
  expect(acuityScatterChart(scatter, { width: 780 }).description).toBe(
    "Acuity after over acuity before for 5 eyes: 2 gained 0.3 logMAR or more, 1 lost as much, " +
      "2 changed by less. Low vision by the table of Bach: HM 2.30.",
  );
});

it("also stands with names of any kind", () => {
  const chart = acuityScatterChart({ ...scatter, groups: hostileLabels }, { width: 390 });
  expect(chart.description).not.toMatch(/\p{Cc}/u);
});
