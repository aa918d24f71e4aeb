import { expect, it } from "vitest";
import { causesChart } from "../../src/charts/causes-chart.ts";
import type { Layer } from "../../src/charts/layers.ts";
import { exampleCauses } from "./example-charts.ts";

const chart = causesChart(exampleCauses, { width: 560 });
const { layer } = chart.spec as { readonly layer: readonly Layer[] };

it("orders causes by count, those not recorded last", () => {
  expect(chart.data).toEqual([
    { cause: "new or missed break", count: 14, share: 14 / 60 },
    { cause: "residual traction", count: 6, share: 0.1 },
    { cause: "not recorded", count: 40, share: 40 / 60 },
  ]);
  expect(chart.description).toBe(
    "Causes of 60 failures: new or missed break 14 (23.3%); residual traction 6 (10.0%); " +
      "not recorded 40 (66.7%).",
  );
});

it("draws bars from one zero, as long as their counts, the unknown as an outline", () => {
  const filled = rects("failed");
  const outlined = rects("failed-outline");
  const lengths = [...filled, ...outlined].map(({ x, x2 }) => Number(x2) - Number(x));
  expect(lengths[0]! / lengths[1]!).toBeCloseTo(14 / 6, 9);
  expect(lengths[2]! / lengths[0]!).toBeCloseTo(40 / 14, 9);
  expect(filled[1]?.pick).toBe("traction");
});

it("has a sentence and no bar when nothing failed", () => {
  const none = causesChart({ causes: [], total: 0 }, { width: 560 });
  expect(none.description).toBe("No failures.");
  expect(none.data).toEqual([]);
});

it("names causes above their bars where they are long", () => {
  const label = "a cause that needs most of the width to be told";
  const long = causesChart({ causes: [{ label, count: 2, share: 1 }], total: 2 }, { width: 390 });
  const [bar] = (long.spec as { readonly layer: readonly Layer[] }).layer;
  expect(bar?.data.values[0]?.x).toBe(0);
  expect(Number(bar?.data.values[0]?.x2)).toBeLessThan(390);
});

function rects(style: string): Layer["data"]["values"] {
  return layer
    .filter(({ mark }) => mark.type === "rect" && (mark.style as string[]).includes(style))
    .flatMap(({ data }) => data.values);
}
