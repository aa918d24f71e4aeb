import { describe, expect, it } from "vitest";
import { attachmentCurveChart } from "../../src/charts/attachment-curve-chart.ts";
import type { AttachmentCurves } from "../../src/charts/attachment-curves.ts";
import type { Chart } from "../../src/charts/chart.ts";
import type { Layer, TextRow } from "../../src/charts/layers.ts";
import { textWidth } from "../../src/charts/text-width.ts";
import { exampleCurves, exampleGroup, techniques } from "./example-charts.ts";

const two = exampleCurves([exampleGroup("vitrectomy"), exampleGroup("scleral buckle", 0.05)]);
const four = exampleCurves([...techniques, "observed"].map((l, i) => exampleGroup(l, i * 0.03)));

describe("the attachment curve chart", () => {
  it("draws each step as it was handed in, from all attached on day 0 to the last day", () => {
    const [line] = layersOf(attachmentCurveChart(two, { width: 780 }), "line");
    expect(line?.data.values).toEqual([
      { time: 0, survival: 1 },
      { time: 0, survival: 0.99 },
      { time: 41, survival: 0.93 },
      { time: 130, survival: 0.88 },
      { time: 300, survival: 0.88 },
    ]);
    expect(line?.mark).toMatchObject({ interpolate: "step-after" });
  });

  it("dims the tail from the day on which few eyes remain", () => {
    const [, tail] = layersOf(attachmentCurveChart(two, { width: 780 }), "line");
    expect(tail?.mark.style).toContain("dimmed");
    expect(tail?.data.values).toEqual([
      { time: 300, survival: 0.88 },
      { time: 365, survival: 0.88 },
    ]);
  });

  it("draws two groups with bands, more with bars at the ends of the curves", () => {
    const bands = layersOf(attachmentCurveChart(two, { width: 780 }), "area");
    expect(bands[0]?.data.values).toEqual([
      { time: 0, lower: 0.94, upper: 1 },
      { time: 41, lower: 0.86, upper: 0.97 },
      { time: 130, lower: 0.8, upper: 0.93 },
      { time: 300, lower: 0.8, upper: 0.93 },
    ]);
    const chart = attachmentCurveChart(four, { width: 780 });
    expect(layersOf(chart, "area")).toEqual([]);
    expect(layersOf(chart, "rule").filter(hasStyle("interval"))).toHaveLength(4);
    expect(allTexts(chart)).toContain(
      "bars: 95% intervals at the ends of curves; faint: few eyes remain",
    );
  });

  it("says where the axis begins, and lowers it for a curve whatever was wished", () => {
    expect(allTexts(attachmentCurveChart(two, { width: 780 }))).toContain("axis begins at 70%");
    const wished = attachmentCurveChart({ ...two, yFloor: 0.9 }, { width: 780 });
    expect(allTexts(wished)).toContain("axis begins at 80%; some limits lie lower");
    const low = exampleCurves([exampleGroup("observed", 0.5)]);
    expect(allTexts(attachmentCurveChart(low, { width: 780 })).join()).not.toMatch(/axis begins/);
  });

  it("has data and description with the numbers handed in", () => {
    const chart = attachmentCurveChart(two, { width: 780 });
    expect(chart.data).toHaveLength(6);
    expect(chart.data[1]).toEqual({
      group: "vitrectomy",
      day: 41,
      survival: 0.93,
      lower: 0.86,
      upper: 0.97,
      atRisk: 110,
    });
    expect(chart.columns.map(({ field }) => field)).toEqual(Object.keys(chart.data[0]!));
    expect(chart.description).toBe(
      "Share of eyes still attached by time since operation. " +
        "vitrectomy: 120 eyes, 88.0% at day 365 (95% interval 80.0% to 93.0%), 9 at risk at day 365. " +
        "scleral buckle: 120 eyes, 83.0% at day 365 (95% interval 75.0% to 88.0%), " +
        "9 at risk at day 365.",
    );
  });

  it("shows every number at risk and every number failed, aligned to its tick", () => {
    const chart = attachmentCurveChart(two, { width: 780 });
    const rows = textRows(chart);
    for (const count of ["120", "104", "77", "41", "9"])
      expect(rowsWith(rows, count)).toHaveLength(2);
    for (const count of ["(1)", "(8)"]) expect(rowsWith(rows, count)).toHaveLength(2);
    const [tick] = rowsWith(rows, "3 mo");
    const [count] = rowsWith(rows, "104");
    const width = textWidth("104 (8)", { size: 13 });
    expect(count!.x + width / 2).toBeCloseTo(tick!.x, 6);
  });

  it("leaves out columns for which there is no room, evenly", () => {
    const texts = allTexts(attachmentCurveChart(four, { width: 360 }));
    expect(texts).toContain("12 mo");
    expect(texts).not.toContain("3 mo");
  });
});

describe("labels at the ends of curves", () => {
  it.each([390, 780])("never overlap at %i px, though six curves end at one place", (width) => {
    const labels = ["one", "two", "three", "four words make lines", "five", "six"];
    const chart = attachmentCurveChart(exampleCurves(labels.map((l) => exampleGroup(l))), {
      width,
    });
    const ends = textRows(chart).filter(({ text }) => text.endsWith("88.0%"));
    expect(ends).toHaveLength(6);
    const heights = textLayers(chart)
      .filter(hasStyle("strong"))
      .flatMap((layer) => layer.data.values.map((row) => Number(row.y)));
    const sorted = [...heights].sort((a, b) => a - b);
    sorted.slice(1).forEach((y, i) => {
      expect(y - sorted[i]!).toBeGreaterThanOrEqual(14.999);
    });
  });

  it("stay within the chart, whatever the label", () => {
    const chart = attachmentCurveChart(exampleCurves([exampleGroup("x".repeat(200))]), {
      width: 390,
    });
    for (const layer of textLayers(chart)) {
      const font = { size: 13, weight: hasStyle("strong")(layer) ? 600 : 400 };
      for (const row of layer.data.values) {
        expect(Number(row.x) + textWidth(String(row.text), font)).toBeLessThanOrEqual(390 - 48);
      }
    }
    expect(allTexts(chart).some((text) => text.endsWith("… 88.0%"))).toBe(true);
  });
});

describe("at the edges", () => {
  it("draws a group without events as a flat line at 100%", () => {
    const group = { ...exampleGroup("no events"), steps: [], censored: [] };
    const chart = attachmentCurveChart(exampleCurves([group]), { width: 780 });
    expect(layersOf(chart, "line")[0]?.data.values).toEqual([
      { time: 0, survival: 1 },
      { time: 300, survival: 1 },
    ]);
    expect(allTexts(chart)).toContain("no events 100.0%");
    expect(allTexts(chart).join()).not.toContain("intervals");
  });

  it("draws no curve for a group without eyes, but keeps its row in the table", () => {
    const none = { ...exampleGroup("nobody"), total: 0, steps: [], censored: [], end: 0 };
    const curves: AttachmentCurves = {
      ...exampleCurves([none]),
      atRisk: [[0, 0, 0, 0, 0]],
      failed: [[0, 0, 0, 0, 0]],
    };
    const chart = attachmentCurveChart(curves, { width: 780 });
    expect(layersOf(chart, "line")).toEqual([]);
    expect(allTexts(chart)).toContain("nobody");
    expect(chart.description).toContain("nobody: no eyes.");
  });

  it("ends a curve at its last follow-up and leads from there to its label", () => {
    const short = { ...exampleGroup("short"), end: 150 };
    const chart = attachmentCurveChart(exampleCurves([short]), { width: 780 });
    expect(layersOf(chart, "line").at(-1)?.data.values.at(-1)).toEqual({
      time: 150,
      survival: 0.88,
    });
    expect(layersOf(chart, "rule").filter(hasStyle("reach"))).toHaveLength(1);
  });

  it("interrupts a band where there is no interval", () => {
    const group = exampleGroup("gap");
    const steps = group.steps.map((s, i) => (i === 1 ? { ...s, lower: null, upper: null } : s));
    const chart = attachmentCurveChart(exampleCurves([{ ...group, steps }]), { width: 780 });
    const bands = layersOf(chart, "area").map((layer) => layer.data.values.map((row) => row.time));
    expect(bands).toEqual([
      [0, 41],
      [130, 300],
      [300, 365],
    ]);
  });

  it("keeps steps after the last day drawn out of the chart and its data", () => {
    const chart = attachmentCurveChart({ ...two, until: 91 }, { width: 780 });
    expect(chart.data.map((row) => row.day)).toEqual([0, 41, 0, 41]);
    expect(allTexts(chart)).not.toContain("6 mo");
  });
});

it("is plain JSON, and holds no colour", () => {
  const { spec } = attachmentCurveChart(four, { width: 780 });
  expect(JSON.parse(JSON.stringify(spec))).toEqual(spec);
  expect(JSON.stringify(spec)).not.toMatch(/#[0-9a-f]{6}/i);
});

function allLayers(chart: Chart): readonly Layer[] {
  return (chart.spec as { readonly layer: readonly Layer[] }).layer;
}

function layersOf(chart: Chart, type: string): readonly Layer[] {
  return allLayers(chart).filter((layer) => layer.mark.type === type);
}

function hasStyle(style: string): (layer: Layer) => boolean {
  return (layer) => (layer.mark.style as readonly string[]).includes(style);
}

function textLayers(chart: Chart): readonly Layer[] {
  return layersOf(chart, "text");
}

function textRows(chart: Chart): readonly TextRow[] {
  return textLayers(chart).flatMap((layer) => layer.data.values as unknown as readonly TextRow[]);
}

function rowsWith(rows: readonly TextRow[], text: string): readonly TextRow[] {
  return rows.filter((row) => row.text === text);
}

function allTexts(chart: Chart): readonly string[] {
  return textRows(chart).map(({ text }) => text);
}
