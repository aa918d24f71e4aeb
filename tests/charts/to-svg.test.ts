import { describe, expect, it } from "vitest";
import { attachmentCurveChart } from "../../src/charts/attachment-curve-chart.ts";
import { calibrationChart } from "../../src/charts/calibration-chart.ts";
import { causesChart } from "../../src/charts/causes-chart.ts";
import type { Chart } from "../../src/charts/chart.ts";
import { effectChart } from "../../src/charts/effect-chart.ts";
import { flowChart } from "../../src/charts/flow-chart.ts";
import { funnelChart } from "../../src/charts/funnel-chart.ts";
import { incidenceChart } from "../../src/charts/incidence-chart.ts";
import { intervalChart } from "../../src/charts/interval-chart.ts";
import { monitoringChart } from "../../src/charts/monitoring-chart.ts";
import { darkTheme, paperTheme } from "../../src/charts/theme.ts";
import { chartToSvg } from "../../src/charts/to-svg.ts";
import { noLoader } from "../../src/charts/vega-engine.ts";
import {
  exampleCalibration,
  exampleCauses,
  exampleCurves,
  exampleEffects,
  exampleFlow,
  exampleGroup,
  exampleIncidence,
  exampleIntervals,
  techniques,
} from "./example-charts.ts";
import { exampleFunnel, exampleMonitoring } from "./example-monitoring.ts";

const two = exampleCurves([exampleGroup("vitrectomy"), exampleGroup("scleral buckle", 0.05)]);
const three = exampleCurves(techniques.map((label, i) => exampleGroup(label, i * 0.04)));

const charts: readonly (readonly [string, Chart])[] = [
  ["curves-two", attachmentCurveChart(two, { width: 780 })],
  ["curves-three-narrow", attachmentCurveChart(three, { width: 390 })],
  ["intervals", intervalChart(exampleIntervals, { width: 780 })],
  ["intervals-narrow", intervalChart(exampleIntervals, { width: 390 })],
  ["causes", causesChart(exampleCauses, { width: 560 })],
  ["effects", effectChart(exampleEffects, { width: 780 })],
  ["calibration", calibrationChart(exampleCalibration, { width: 400 })],
  ["incidence", incidenceChart(exampleIncidence, { width: 780 })],
  ["flow", flowChart(exampleFlow, { width: 640 })],
  ["funnel", funnelChart(exampleFunnel, { width: 780 })],
  ["funnel-narrow", funnelChart(exampleFunnel, { width: 390 })],
  ["monitoring", monitoringChart(exampleMonitoring, { width: 780 })],
  ["monitoring-narrow", monitoringChart(exampleMonitoring, { width: 390 })],
];

describe.each(charts)("%s as SVG", (name, chart) => {
  it("is as drawn before (numbers rounded to a tenth of a pixel)", async () => {
    const svg = await chartToSvg(chart, { theme: paperTheme, prefix: "c1" });
    await expect(rounded(svg)).toMatchFileSnapshot(`golden/${name}.svg`);
  });

  it("is one image with its description, of the size that the chart says", async () => {
    const svg = await chartToSvg(chart, { theme: paperTheme, prefix: "c1" });
    expect(svg).toMatch(
      /^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" width="[\d.]+" height="[\d.]+" [^>]*role="img"/,
    );
    expect(svg).toContain(`viewBox="0 0 ${chart.width} ${chart.height}"`);
    const { width, height, padding } = chart.spec as {
      readonly width: number;
      readonly height: number;
      readonly padding: Readonly<Record<string, number>>;
    };
    expect(width + padding.left! + padding.right!).toBeCloseTo(chart.width, 9);
    expect(height + padding.top! + padding.bottom!).toBeCloseTo(chart.height, 9);
    expect(svg.match(/<svg/g)).toHaveLength(1);
    expect(svg.endsWith("</svg>")).toBe(true);
  });

  it("takes every colour from the theme", async () => {
    for (const theme of [paperTheme, darkTheme]) {
      const svg = await chartToSvg(chart, { theme, prefix: "c1", ground: true });
      const known = new Set(Object.values(theme.palette).flat());
      const used = svg.match(/#[0-9a-f]{3,8}\b/gi) ?? [];
      expect(used.filter((color) => !known.has(color))).toEqual([]);
      expect(svg).not.toMatch(/(fill|stroke)="(black|white|steelblue)"/);
    }
  });
});

it("begins ids, and references to them, with the prefix, in tags alone", async () => {
  const chart: Chart = {
    ...charts[0]![1],
    spec: {
      width: 100,
      height: 40,
      data: { values: [{ x: 10, text: 'id="clip1" url(#clip1)' }] },
      layer: ["point", "text"].map((type) => ({
        mark: { type, clip: true },
        encoding: { x: { field: "x", type: "quantitative" }, text: { field: "text" } },
      })),
    },
  };
  const svg = await chartToSvg(chart, { theme: paperTheme, prefix: "cell-7" });
  const ids = Array.from(svg.matchAll(/ id="([^"]+)"/g), (match) => match[1]!).filter(
    (id) => id !== "clip1",
  );
  expect(ids.length).toBeGreaterThan(0);
  for (const id of ids) expect(id).toMatch(/^cell-7-clip\d+$/);
  for (const id of ids) expect(svg).toContain(`"url(#${id})"`);
  expect(svg).toContain('>id="clip1" url(#clip1)<');
});

it("refuses to load anything or to link anywhere", async () => {
  for (const method of ["load", "sanitize", "http", "file"] as const) {
    await expect(noLoader[method]("x", {} as never)).rejects.toThrow("loads nothing");
  }
});

it("draws a chart anew with the same result", async () => {
  const [, chart] = charts[1]!;
  const options = { theme: darkTheme, prefix: "c1" };
  expect(await chartToSvg(chart, options)).toBe(await chartToSvg(chart, options));
});

/** Numbers in the tags of parts rounded, each tag on a line; texts as they are. */
function rounded(svg: string): string {
  const tags = svg.replace(/<(?!svg)[^>]*>/g, (tag) =>
    tag.replace(/-?\d+\.\d+/g, (number) => String(Number(Number(number).toFixed(1)))),
  );
  return `${tags.replace(/></g, ">\n<")}\n`;
}
