import { describe, expect, it } from "vitest";
import { intervalChart } from "../../src/charts/interval-chart.ts";
import { intervalMark } from "../../src/charts/interval-mark.ts";
import type { Layer } from "../../src/charts/layers.ts";
import { paperPalette } from "../../src/charts/palette.ts";
import { percentAxis } from "../../src/charts/percent-axis.ts";
import { exampleIntervals } from "./example-charts.ts";

describe("the interval chart", () => {
  const chart = intervalChart(exampleIntervals, { width: 780 });
  const { layer } = chart.spec as { readonly layer: readonly Layer[] };

  it("has rows and description with the numbers handed in", () => {
    expect(chart.data[0]).toEqual({
      group: "vitrectomy",
      events: 25,
      total: 212,
      rate: 25 / 212,
      lower: 0.0811,
      upper: 0.1684,
    });
    expect(chart.columns.map(({ field }) => field)).toEqual(Object.keys(chart.data[0]!));
    expect(chart.description).toBe(
      "vitrectomy: 25 of 212 failed, 11.8% (95% interval 8.1% to 16.8%). " +
        "pneumatic retinopexy: 8 of 31 failed, 25.8% (95% interval 13.7% to 43.2%). " +
        "observed: no eyes. Line at 10.0%: 10% standard.",
    );
  });

  it("places rate, limits and standard on one scale from zero to a round end", () => {
    const line = only("interval");
    const standard = only("standard");
    const square = layer.find(({ mark }) => mark.type === "point");
    const [mark] = line.data.values;
    const perRate = (Number(mark?.x2) - Number(mark?.x)) / (0.1684 - 0.0811);
    const zero = Number(mark?.x) - 0.0811 * perRate;
    expect(Number(square?.data.values[0]?.x)).toBeCloseTo(zero + (25 / 212) * perRate, 6);
    expect(Number(standard.data.values[0]?.x)).toBeCloseTo(zero + 0.1 * perRate, 6);
  });

  it("draws no mark for a group without eyes", () => {
    expect(only("interval").data.values).toHaveLength(2);
  });

  it("says how the rates were estimated where they are no quotients of the counts", () => {
    const by = intervalChart({ ...exampleIntervals, how: "by the curve" }, { width: 780 });
    const { layer: layers } = by.spec as { readonly layer: readonly Layer[] };
    const words = layers.flatMap(({ data }) => data.values.map(({ text }) => text));
    expect(words).toContain("by the curve (95%)");
    expect(words).not.toContain("95% interval");
    expect(by.description).toContain("25 of 212 failed, by the curve 11.8% (95% interval");
  });

  it.each([780, 390])("writes over the names what the rows are split by, at %i pixels", (width) => {
    const split = intervalChart({ ...exampleIntervals, splitBy: "risk of PVR" }, { width });
    const { layer: layers } = split.spec as { readonly layer: readonly Layer[] };
    const all = layers.flatMap(({ data }) => data.values);
    const over = all.find(({ text }) => text === "risk of PVR");
    const counted = all.find(({ text }) => text === "failed");
    expect(over).toMatchObject({ x: 0, y: counted?.y });
    expect(split.description).toMatch(/^By risk of PVR\. vitrectomy: /);
    const short = intervalChart(
      { ...exampleIntervals, splitBy: "a split with a name that is far too long for its place" },
      { width },
    );
    const texts = (short.spec as { layer: readonly Layer[] }).layer.flatMap(({ data }) =>
      data.values.map(({ text }) => String(text)),
    );
    expect(texts.some((text) => /^a split .*…$/.test(text))).toBe(true);
  });

  function only(style: string): Layer {
    const found = layer.filter(({ mark }) => (mark.style as readonly string[]).includes(style));
    expect(found).toHaveLength(1);
    return found[0]!;
  }
});

it.each([
  [[0.432], 0.5, 6],
  [[0.05], 0.05, 6],
  [[0.008], 0.01, 6],
  [[0.13], 0.15, 4],
  [[0.97], 1, 6],
  [[0.99, 1], 1, 6],
  [[], 0.01, 6],
])("makes an axis from zero for %j up to %d with %i ticks", (values, max, count) => {
  const axis = percentAxis(values);
  expect(axis.max).toBe(max);
  expect(axis.ticks).toHaveLength(count);
  expect(axis.ticks[0]).toBe(0);
  expect(axis.ticks.at(-1)).toBeCloseTo(max, 12);
});

describe("the interval mark", () => {
  const look = { width: 108, palette: paperPalette, tone: "failed" } as const;

  it("places its parts on the scale, in the colour of what it means", () => {
    const svg = intervalMark(
      { rate: 0.25, lower: 0.1, upper: 0.4, reference: 0.2, max: 0.5 },
      look,
    );
    expect(svg).toContain('<line x1="24.00" x2="84.00"');
    expect(svg).toContain('<rect x="50.50"');
    expect(svg).toContain('<line x1="44.00" x2="44.00"');
    expect(svg).toContain(`fill="${paperPalette.failed}"`);
    expect(svg).toContain('aria-hidden="true"');
  });

  it("ends at the edge of the scale, and draws no standard where there is none", () => {
    const svg = intervalMark({ rate: 0.4, lower: 0, upper: 0.9, max: 0.5 }, look);
    expect(svg).toContain('<line x1="4.00" x2="104.00"');
    expect(svg.match(/<line/g)).toHaveLength(1);
  });
});
