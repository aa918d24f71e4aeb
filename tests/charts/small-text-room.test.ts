import { describe, expect, it } from "vitest";
import { attachmentCurveChart } from "../../src/charts/attachment-curve-chart.ts";
import type { Layer } from "../../src/charts/layers.ts";
import { textWidth } from "../../src/charts/text-width.ts";
import { evenText, paperTheme, smallTextRoom, textSize } from "../../src/charts/theme.ts";
import { exampleCurves, exampleGroup, techniques } from "./example-charts.ts";

/** So many that bars at the ends stand for bands, and thin at the end: both are told at the foot. */
const curves = exampleCurves(techniques.map((label, at) => exampleGroup(label, at * 0.03)));

describe("small text, which a meeting draws as large as labels", () => {
  it("is given the room that it takes there", () => {
    const { style } = evenText(paperTheme).config as { style: { small: { fontSize: number } } };
    expect(style.small.fontSize).toBe(smallTextRoom);
    expect(smallTextRoom).toBeGreaterThanOrEqual(textSize.small);
  });

  it.each([300, 320, 340, 360, 390, 420])("fits at the foot of curves %i pixels wide", (width) => {
    const chart = attachmentCurveChart(curves, { width });
    const { layer } = chart.spec as { readonly layer: readonly Layer[] };
    const { left } = (chart.spec as { padding: { left: number } }).padding;
    const legend = layer.at(-1)?.data.values ?? [];
    expect(legend.length).toBeGreaterThan(0);
    for (const { text } of legend) {
      expect(left + textWidth(String(text), { size: smallTextRoom })).toBeLessThanOrEqual(width);
    }
  });
});
