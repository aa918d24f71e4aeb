import { describe, expect, it } from "vitest";
import { funnelChart } from "../../src/charts/funnel-chart.ts";
import type { Layer } from "../../src/charts/layers.ts";
import { paperTheme } from "../../src/charts/theme.ts";
import { chartToSvg } from "../../src/charts/to-svg.ts";
import { hostileLabels } from "./example-charts.ts";
import { exampleFunnel } from "./example-monitoring.ts";

const layersOf = (spec: object) => (spec as { readonly layer: readonly Layer[] }).layer;
const rowsOf = (spec: object) => layersOf(spec).flatMap(({ data }) => data.values);

describe.each([780, 390, 300])("the funnel at %i pixels", (width) => {
  const chart = funnelChart(exampleFunnel, { width });

  it("is as wide as it is told, and everything drawn stays inside", () => {
    const { padding, width: inner } = chart.spec as {
      readonly padding: { readonly left: number; readonly right: number };
      readonly width: number;
    };
    expect(chart.width).toBe(width);
    expect(padding.left + inner + padding.right).toBe(width);
    for (const { x, y } of rowsOf(chart.spec)) {
      expect(Number(x)).toBeGreaterThanOrEqual(-padding.left);
      expect(Number(x)).toBeLessThanOrEqual(inner + padding.right);
      expect(Number.isFinite(Number(y))).toBe(true);
    }
  });

  it("names the reader's own point and no other", () => {
    const texts = rowsOf(chart.spec).map(({ text }) => text);
    expect(texts).toContain("A");
    expect(rowsOf(chart.spec).filter(({ pick }) => pick !== undefined).length).toBeGreaterThan(0);
    expect(chart.data.map(({ group }) => group)).toEqual([null, "A"]);
  });
});

describe("the funnel in words and as a drawing", () => {
  it("describes each point from the same numbers, nameless where names are hidden", () => {
    expect(funnelChart(exampleFunnel, { width: 780 }).description).toBe(
      "Share that failed over eyes whose outcome is known, around target 13.0% (13.0%) with 95% and 99.8% limits. " +
        "Point 1: 40, 10.0%. A (own): 96, 21.0%.",
    );
  });

  it("draws with hostile names and with one point only", async () => {
    for (const label of hostileLabels) {
      const [, own] = exampleFunnel.points;
      const chart = funnelChart(
        { ...exampleFunnel, points: own === undefined ? [] : [{ ...own, label }] },
        { width: 390 },
      );
      const svg = await chartToSvg(chart, { theme: paperTheme, prefix: "c1" });
      expect(svg).not.toContain("<script>");
      expect(svg).toContain("</svg>");
    }
  });

  it("places a ratio of 1 on the dotted line", () => {
    const chart = funnelChart(
      {
        ...exampleFunnel,
        scale: "ratio",
        target: 1,
        targetLabel: "as many as expected",
        limits: [],
        points: [{ size: 8, value: 1, isOwn: false }],
      },
      { width: 780 },
    );
    const line = layersOf(chart.spec).find(({ mark }) =>
      (mark.style as string[]).includes("standard"),
    );
    const point = layersOf(chart.spec).find(({ mark }) => mark.type === "point");
    expect(point?.data.values[0]?.y).toBe(line?.data.values[0]?.y);
  });
});
