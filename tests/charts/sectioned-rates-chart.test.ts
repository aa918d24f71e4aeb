import { describe, expect, it } from "vitest";
import type { Layer } from "../../src/charts/layers.ts";
import type { SectionedRates } from "../../src/charts/sectioned-rates.ts";
import { sectionedRatesChart } from "../../src/charts/sectioned-rates-chart.ts";
import { textWidth } from "../../src/charts/text-width.ts";
import { hostileLabels } from "./example-charts.ts";

const row = { label: "vitrectomy", events: 3, total: 30, rate: 0.1, lower: 0.035, upper: 0.256 };
const rates: SectionedRates = {
  counted: "failed",
  tone: "failed",
  reach: "how far the rate moves",
  sections: [
    {
      label: "redetachment",
      rows: [{ ...row, chosen: true, lowest: 0.1, highest: 0.2, pick: "a" }],
    },
    {
      label: "reoperation",
      rows: [
        row,
        { ...row, label: "observed", events: 0, total: 0, rate: null, lower: null, upper: null },
      ],
    },
  ],
};

it("tells each rate once, as the table would", () => {
  const chart = sectionedRatesChart(rates, { width: 780 });
  expect(chart.description).toBe(
    "redetachment: vitrectomy 3 of 30 failed, 10.0% (95% interval 3.5% to 25.6%), from 10.0% to " +
      "20.0% over what is left open. reoperation: vitrectomy 3 of 30 failed, 10.0% (95% interval " +
      "3.5% to 25.6%); observed 0 of 0 failed. Dotted: how far the rate moves.",
  );
  expect(chart.data).toHaveLength(3);
  expect(chart.data[0]).toMatchObject({ section: "redetachment", lowest: 0.1, highest: 0.2 });
});

describe.each([320, 390, 780])("at %i px", (width) => {
  const { spec } = sectionedRatesChart(rates, { width });
  const { layer } = spec as { readonly layer: readonly Layer[] };

  it("draws a square for each rate there is, on one scale", () => {
    const points = layer
      .filter(({ mark }) => mark.shape === "square")
      .flatMap((l) => l.data.values);
    expect(points).toHaveLength(2);
    expect(points[0]?.x).toBe(points[1]?.x);
    expect(points[0]?.pick).toBe("a");
  });

  it("keeps counts and values apart and within the chart", () => {
    const right = layer
      .filter(({ mark }) => mark.type === "text" && mark.align === "right")
      .flatMap((l) => l.data.values);
    for (const text of right) {
      expect(Number(text.x)).toBeLessThanOrEqual(width);
      const start = Number(text.x) - textWidth(String(text.text), { size: 13 });
      expect(start).toBeGreaterThan(0);
    }
  });
});

it("also stands with nothing in it, and with names of any kind", () => {
  const empty = sectionedRatesChart({ ...rates, sections: [] }, { width: 390 });
  expect(empty.data).toEqual([]);
  const sections = hostileLabels.map((label) => ({ label, rows: [{ ...row, label }] }));
  const chart = sectionedRatesChart({ ...rates, sections }, { width: 390 });
  expect(chart.description).not.toMatch(/\p{Cc}/u);
});
