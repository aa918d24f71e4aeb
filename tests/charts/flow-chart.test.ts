import { describe, expect, it } from "vitest";
import { flowChart } from "../../src/charts/flow-chart.ts";
import type { Layer } from "../../src/charts/layers.ts";
import { exampleFlow } from "./example-charts.ts";

it("tells the flow with the counts handed in", () => {
  const chart = flowChart(exampleFlow, { width: 640 });
  expect(chart.description).toBe(
    "486 rows read; 11 left out: 6 same operation entered twice, 5 no eye given. " +
      "475 eyes analysed. " +
      "Of these: 400 attached at last visit, 60 redetached, 15 not yet decided.",
  );
  expect(chart.data.map(({ count }) => count)).toEqual([486, 6, 5, 475, 400, 60, 15]);
});

it("is lower where it is to be, and says the same", () => {
  const [high, low] = [0, 1].map((lower) => flowChart(exampleFlow, { width: 780, lower }));
  expect(low?.height).toBeLessThan(0.8 * (high?.height ?? 0));
  expect(low?.description).toBe(high?.description);
});

describe.each([
  [320, 0],
  [390, 0],
  [640, 0],
  [780, 0],
  [320, 1],
  [640, 1],
  [780, 1],
])("at %i px, to be %i lower", (width, lower) => {
  const { spec } = flowChart(exampleFlow, { width, lower });
  const { layer, height } = spec as { readonly layer: readonly Layer[]; readonly height: number };
  const rects = layer
    .find(({ mark }) => mark.type === "rect")!
    .data.values.map((row) => ({
      left: Number(row.x),
      right: Number(row.x2),
      top: Number(row.y),
      bottom: Number(row.y2),
    }));

  it("has a box for each stage, each group of reasons and each outcome, none over another", () => {
    expect(rects).toHaveLength(6);
    rects.forEach((a, i) => {
      for (const b of rects.slice(i + 1)) {
        const apart =
          a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
        expect(apart).toBe(true);
      }
    });
  });

  it("keeps boxes within the chart", () => {
    for (const { left, right, top, bottom } of rects) {
      expect(left).toBeGreaterThanOrEqual(0);
      expect(right).toBeLessThanOrEqual(width - 2 + 1e-9);
      expect(top).toBeGreaterThanOrEqual(0);
      expect(bottom).toBeLessThanOrEqual(height + 1e-9);
    }
  });
});

it("also stands when there are no outcomes, or nothing at all", () => {
  const chart = flowChart({ stages: [exampleFlow.stages[0]!], outcomes: [] }, { width: 640 });
  expect(chart.description).toContain("11 left out");
  const { layer } = chart.spec as { readonly layer: readonly Layer[] };
  expect(layer.find(({ mark }) => mark.type === "rect")?.data.values).toHaveLength(2);
  expect(flowChart({ stages: [], outcomes: [] }, { width: 640 }).description).toBe("");
});
