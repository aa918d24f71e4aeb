import { compile, type TopLevelSpec } from "vega-lite";
import { describe, expect, it } from "vitest";
import { attachmentCurveChart } from "../../src/charts/attachment-curve-chart.ts";
import { causesChart } from "../../src/charts/causes-chart.ts";
import type { Chart } from "../../src/charts/chart.ts";
import { effectChart } from "../../src/charts/effect-chart.ts";
import { flowChart } from "../../src/charts/flow-chart.ts";
import { incidenceChart } from "../../src/charts/incidence-chart.ts";
import { intervalChart } from "../../src/charts/interval-chart.ts";
import { plainText } from "../../src/charts/plain-text.ts";
import { paperTheme } from "../../src/charts/theme.ts";
import { chartToSvg } from "../../src/charts/to-svg.ts";
import {
  exampleCauses,
  exampleCurves,
  exampleEffects,
  exampleFlow,
  exampleGroup,
  exampleIncidence,
  exampleIntervals,
  hostileLabels,
} from "./example-charts.ts";

describe.each(hostileLabels.map((label) => [label]))("the label %j", (label) => {
  const charts = chartsWith(label);

  it.each(Object.entries(charts))("is text and nothing else in the %s chart", async (_, chart) => {
    const svg = await chartToSvg(chart, { theme: paperTheme, prefix: "c1" });
    const tags = new Set(Array.from(svg.matchAll(/<\/?([^\s/>]+)/g), (match) => match[1]));
    for (const tag of tags) expect(["svg", "g", "path", "line", "text"]).toContain(tag);
    expect(svg).not.toMatch(/[\p{Cc}\ud800\ufffe\uffff]/u);
    expect(svg).not.toMatch(/<[^>]* (on\w+|href|xlink:href)=/);
    const begin = escaped(plainText(label).slice(0, 6).trim());
    expect(svg).toContain(`>${begin}`);
  });

  it.each(Object.entries(charts))(
    "reaches no field name or expression of the %s chart",
    (_, chart) => {
      const codes = expressionsIn(compiled(chart));
      expect(codes.length).toBeGreaterThan(0);
      for (const code of codes) expect(code).not.toContain(plainText(label).slice(0, 30));
      const plain = expressionsIn(compiled(chartsWith("plain")[chart.kind]!));
      expect(new Set(codes)).toEqual(new Set(plain));
    },
  );

  it.each(Object.entries(charts))("stays as it was in the rows of the %s chart", (_, chart) => {
    expect(chart.data.some((row) => Object.values(row).includes(label))).toBe(true);
  });
});

function chartsWith(label: string): Readonly<Record<string, Chart>> {
  const rows = exampleIntervals.rows.map((row) => ({ ...row, label }));
  const reference = { rate: 0.1, label };
  const stages = exampleFlow.stages.map((stage) => ({ ...stage, label }));
  const curves = exampleCurves([exampleGroup(label), exampleGroup("vitrectomy", 0.05)]);
  return {
    "attachment-curve": attachmentCurveChart(curves, { width: 780 }),
    interval: intervalChart(
      { ...exampleIntervals, rows, reference, counted: label },
      { width: 780 },
    ),
    incidence: incidenceChart(
      {
        ...exampleIncidence,
        groups: [{ label }],
        curves: exampleIncidence.curves.map((curve) => ({ ...curve, label })),
      },
      { width: 780 },
    ),
    effects: effectChart(
      {
        ...exampleEffects,
        measure: label,
        rows: exampleEffects.rows.map((row) => ({ ...row, label })),
      },
      { width: 780 },
    ),
    causes: causesChart(
      { ...exampleCauses, causes: exampleCauses.causes.map((cause) => ({ ...cause, label })) },
      { width: 780 },
    ),
    flow: flowChart({ ...exampleFlow, stages }, { width: 780 }),
  };
}

function compiled(chart: Chart): object {
  return compile(chart.spec as TopLevelSpec, { config: paperTheme.config }).spec;
}

/** All that vega would read as an expression or a field. */
function expressionsIn(value: unknown): readonly string[] {
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => {
    if (key === "values") return [];
    const isCode = ["signal", "expr", "test", "update", "field", "as", "groupby"].includes(key);
    return isCode && typeof part === "string" ? [part] : expressionsIn(part);
  });
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}
