import { describe, expect, it } from "vitest";
import type { ClockRose } from "../../src/charts/clock-rose.ts";
import { clockRoseChart } from "../../src/charts/clock-rose-chart.ts";
import { wedge } from "../../src/charts/clock-wedges.ts";
import type { Layer } from "../../src/charts/layers.ts";
import { paperTheme } from "../../src/charts/theme.ts";
import { chartToSvg } from "../../src/charts/to-svg.ts";

const hours = Array.from({ length: 12 }, (_, i) => ({
  hour: i + 1,
  eyes: i,
  failed: i === 9 ? 4 : 0,
  ...(i === 9 ? { pick: "ten", failedPick: "ten failed" } : {}),
}));
const rose: ClockRose = {
  counted: "failed",
  inferior: { name: "4 to 8", from: 4, to: 8 },
  groups: [
    {
      eyes: [
        { side: "right", total: 40, hours },
        { side: "left", total: 0, hours: hours.map(({ hour }) => ({ hour, eyes: 0, failed: 0 })) },
      ],
    },
  ],
};

/** A group of 40 eyes and one of a tenth as many with a break at each hour. */
const split: ClockRose = {
  ...rose,
  groups: [
    { label: "scleral buckle", eyes: rose.groups[0]!.eyes },
    {
      label: "vitrectomy",
      eyes: [
        { side: "right", total: 4, hours: [{ hour: 10, eyes: 1, failed: 1, pick: "g1:h10" }] },
        { side: "left", total: 0, hours: [] },
      ],
    },
  ],
};

describe.each([320, 390, 780])("at %i px", (width) => {
  const chart = clockRoseChart(rose, { width });
  const { layer } = chart.spec as { readonly layer: readonly Layer[] };
  const all = layer.filter(({ mark }) => mark.type === "arc");

  it("draws a wedge an hour that has eyes, and its failed part inside", () => {
    const styled = (style: string) =>
      all.filter(({ mark }) => (mark.style as string[])[0] === style).flatMap((l) => l.data.values);
    expect(styled("box")).toHaveLength(11);
    expect(styled("failed")).toHaveLength(1);
    const [outer, inner] = [styled("box").find((w) => w.pick === "ten"), styled("failed")[0]];
    expect((Number(inner?.outer) / Number(outer?.outer)) ** 2).toBeCloseTo(4 / 9, 9);
  });

  it("names temporal on the outer side of each eye", () => {
    const named = (text: string) =>
      layer.flatMap(({ data }) => data.values).filter((row) => row.text === text);
    const [rightTemporal, leftTemporal] = named("temporal");
    const [rightNasal, leftNasal] = named("nasal");
    expect(Number(rightTemporal?.x)).toBeLessThan(Number(rightNasal?.x));
    expect(Number(leftTemporal?.x)).toBeGreaterThan(Number(leftNasal?.x));
  });

  it("keeps every text within the chart", () => {
    for (const { x, y } of layer.flatMap(({ data }) => data.values)) {
      if (x === undefined) continue;
      expect(Number(x)).toBeGreaterThanOrEqual(0);
      expect(Number(x)).toBeLessThanOrEqual(width);
      expect(Number(y)).toBeGreaterThanOrEqual(0);
      expect(Number(y)).toBeLessThanOrEqual(chart.height);
    }
  });
});

describe.each([320, 390, 780])("of groups, at %i px", (width) => {
  const chart = clockRoseChart(split, { width });
  const { layer } = chart.spec as { readonly layer: readonly Layer[] };
  const rows = layer.flatMap(({ data }) => data.values);

  it("names each group above its roses, one below the other", () => {
    const [first, second] = ["scleral buckle", "vitrectomy"].map((label) =>
      Number(rows.find(({ text }) => text === label)?.y),
    );
    expect(first).toBeGreaterThan(0);
    expect(second).toBeGreaterThan(first ?? Number.NaN);
    const titles = rows
      .filter(({ text }) => String(text).includes(" eye"))
      .map(({ y }) => Number(y));
    expect(titles.filter((y) => y > (second ?? 0)).length).toBeGreaterThanOrEqual(2);
    for (const { x, y } of rows) {
      if (x === undefined) continue;
      expect(Number(x)).toBeLessThanOrEqual(width);
      expect(Number(y)).toBeLessThanOrEqual(chart.height);
    }
  });

  it("draws areas as shares of the group", () => {
    const wedges = layer.filter(({ mark }) => mark.type === "arc").flatMap((l) => l.data.values);
    const outer = (pick: string) => Number(wedges.find((each) => each.pick === pick)?.outer);
    // 9 of 40 eyes against 1 of 4.
    expect((outer("ten") / outer("g1:h10")) ** 2).toBeCloseTo(9 / 40 / (1 / 4), 9);
  });

  it("tells the group in its alternative and in its rows", () => {
    expect(chart.description).toContain("vitrectomy, right eyes, 4 with a break recorded: 10 o'");
    expect(chart.data.at(-1)).toMatchObject({ group: "vitrectomy", hour: 10, eyes: 1, failed: 1 });
  });
});

it("a wedge stands half an hour to either side of its hour, clockwise from the top", () => {
  const place = { x: 0, y: 0, radius: 100, most: 4 };
  expect(wedge(place, { hour: 3, count: 1 })).toMatchObject({
    from: Math.PI / 2 - Math.PI / 12,
    to: Math.PI / 2 + Math.PI / 12,
    outer: 50,
  });
});

it("draws its wedges as paths", async () => {
  const svg = await chartToSvg(clockRoseChart(rose, { width: 390 }), {
    theme: paperTheme,
    prefix: "rose",
  });
  expect(svg).toContain("10 o'clock 9 (4 failed)");
  expect(svg.match(/mark-arc/g)?.length).toBeGreaterThan(1);
  expect(svg).not.toContain("NaN");
});
