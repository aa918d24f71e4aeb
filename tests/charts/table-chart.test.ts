import { compile, type TopLevelSpec } from "vega-lite";
import { describe, expect, it } from "vitest";
import type { Chart } from "../../src/charts/chart.ts";
import type { Layer } from "../../src/charts/layers.ts";
import { plainText } from "../../src/charts/plain-text.ts";
import { tableChart } from "../../src/charts/table-chart.ts";
import type { TableDrawing } from "../../src/charts/table-drawing.ts";
import { paperTheme } from "../../src/charts/theme.ts";
import { chartToSvg } from "../../src/charts/to-svg.ts";
import { valueAxis } from "../../src/charts/value-axis.ts";
import { hostileLabels } from "./example-charts.ts";

const bars: TableDrawing = {
  as: "bars",
  across: { label: "technique", kind: "groups", names: ["buckle", "vitrectomy"] },
  up: { label: "cases", kind: "count" },
  groups: ["macula on", "macula off"],
  by: "macula",
  marks: [
    { across: 0, up: 12, group: 0, rows: 12, pick: "a" },
    { across: 0, up: 3, group: 1, rows: 3 },
    { across: 1, up: 0, group: 0, rows: 0 },
    { across: 1, up: 24, group: 1, rows: 24 },
  ],
};

const boxes: TableDrawing = {
  ...bars,
  as: "boxes",
  up: { label: "wait", kind: "days" },
  groups: [],
  marks: [
    {
      across: 0,
      up: 5,
      group: 0,
      rows: 9,
      spread: { lower: 3, upper: 8, least: 1, most: 10, beyond: [{ up: 40, pick: "far" }] },
    },
  ],
};

const line: TableDrawing = {
  as: "line",
  across: { label: "operation date", kind: "day" },
  up: { label: "share failed", kind: "share" },
  groups: ["A", "B"],
  by: "surgeon",
  marks: [
    { across: 19000, up: 0.1, group: 0, rows: 10 },
    { across: 19031, up: null, group: 0, rows: 0 },
    { across: 19059, up: 0.2, group: 0, rows: 10 },
    { across: 19090, up: 0.15, group: 0, rows: 10 },
    { across: 19000, up: 0.3, group: 1, rows: 10 },
    { across: 19059, up: 0.3, group: 1, rows: 10 },
  ],
};

describe("bars", () => {
  it("stand from zero in proportion, group by group, each with its pick", () => {
    const rects = barsOf(tableChart(bars, { width: 700 }));
    const heights = rects.map(({ y, y2 }) => Number(y2) - Number(y));
    expect(inProportion(heights, 24)).toEqual([12, 0, 3, 24]);
    expect(rects.map(({ pick }) => pick)).toEqual(["a", undefined, undefined, undefined]);
    const [first, , beside] = rects;
    expect(Number(beside?.x)).toBeGreaterThanOrEqual(Number(first?.x2));
  });

  it("lie down where their names do not fit, in the same proportion", () => {
    const names = ["a name so long that three lines of it say no more than half", "vitrectomy"];
    const chart = tableChart({ ...bars, across: { ...bars.across, names } }, { width: 260 });
    const lengths = barsOf(chart).map(({ x, x2 }) => Number(x2) - Number(x));
    expect(inProportion(lengths, 24)).toEqual([12, 3, 24]);
    const values = marksOf(chart, "text").map(({ text }) => text);
    expect(values).toEqual(expect.arrayContaining(["12", "3", "0", "24"]));
  });

  it("fall below zero standing", () => {
    const marks = [
      { across: 0, up: -2, group: 0, rows: 3 },
      { across: 1, up: 4, group: 0, rows: 3 },
    ];
    const chart = tableChart({ ...bars, groups: [], marks }, { width: 120 });
    const [below, above] = marksOf(chart, "rect");
    expect(Number(below?.y)).toBeGreaterThan(Number(below?.y2));
    expect(Number(above?.y)).toBeLessThan(Number(above?.y2));
  });
});

describe("boxes, lines and points", () => {
  it("a box ends at its quartiles, its whiskers at theirs, and what lies beyond can be picked", () => {
    const chart = tableChart(boxes, { width: 700 });
    const [box] = marksOf(chart, "rect");
    const [point] = marksOf(chart, "point");
    const perDay = (Number(box?.y2) - Number(box?.y)) / 5;
    expect((Number(box?.y) - Number(point?.y)) / perDay).toBeCloseTo(32, 6);
    expect(point?.pick).toBe("far");
    expect(chart.data[0]).toEqual({
      ...{ across: "buckle", group: null, up: 5, rows: 9 },
      ...{ least: 1, lower: 3, upper: 8, most: 10 },
    });
  });

  it("a line is broken where there is no value, and named at its end", () => {
    const chart = tableChart(line, { width: 700 });
    const runs = layersOf(chart).filter(({ mark }) => mark.type === "line");
    expect(runs.map(({ data }) => data.values.length)).toEqual([2, 2]);
    const names = marksOf(chart, "text").map(({ text }) => text);
    expect(names).toContain("A");
    expect(names).toContain("B");
    expect(marksOf(chart, "point")).toHaveLength(5);
  });

  it("an axis without zero says where it begins, both ways; days and years have none", () => {
    const textsOf = (drawing: TableDrawing) =>
      marksOf(tableChart(drawing, { width: 700 }), "text").map(({ text }) => text);
    const up = { label: "age", kind: "number" as const };
    const spread = { lower: 50, upper: 60, least: 41, most: 75, beyond: [] };
    const marks = [{ across: 0, up: 55, group: 0, rows: 9, spread }];
    expect(textsOf({ ...boxes, up, marks })).toContain("age; axis begins at 40");
    const across = { label: "wait", kind: "days" as const };
    const points = [50, 55].map((at) => ({ across: at, up: at, group: 0, rows: 1 }));
    const scatter = { ...line, as: "points" as const, across, up, groups: [], marks: points };
    expect(textsOf(scatter)).toContain("wait (days); axis begins at 50");
    const years = points.map((mark) => ({ ...mark, across: mark.across + 1970 }));
    const overYears = { ...line, across: { label: "year", kind: "number" as const }, marks: years };
    for (const drawing of [line, overYears])
      expect(textsOf(drawing).filter((text) => String(text).includes("begins"))).toEqual([]);
  });

  it("points of groups differ by shape as well as by hue", () => {
    const chart = tableChart({ ...line, as: "points" }, { width: 700 });
    const shapes = layersOf(chart).flatMap(({ mark }) => mark.shape ?? []);
    expect(new Set(shapes).size).toBe(2);
  });
});

describe("groups of bars and boxes", () => {
  const groups = Array.from({ length: 14 }, (_, i) => `group ${i}`);
  const marks = [0, 1].flatMap((across) =>
    groups.map((_, group) => ({ across, up: group, group, rows: group })),
  );
  const many = { ...bars, groups, marks };

  it.each([
    ["standing", { ...many, marks: [...marks, { across: 1, up: -3, group: 0, rows: 3 }] }],
    ["lying", many],
    ["as boxes", { ...many, as: "boxes" as const }],
  ])("have the symbol of their group at the foot, as in the legend, %s", (_, drawing) => {
    const chart = tableChart(drawing, { width: 780 });
    const drawn = layersOf(chart).filter(({ mark }) => mark.type === "point");
    const looks = drawn.map(({ mark: { shape, filled, style } }) => `${shape} ${filled} ${style}`);
    const shapes = new Set(drawn.map(({ mark: { shape, filled } }) => `${shape} ${filled}`));
    const [legend, feet] = [1, 2].map((rows) =>
      looks.filter((_, i) => Math.min(2, drawn[i]!.data.values.length) === rows),
    );
    expect(shapes.size).toBe(14);
    expect(legend).toHaveLength(14);
    expect(feet).toEqual(legend);
  });

  it("one group has none", () => {
    const chart = tableChart({ ...bars, groups: ["all"] }, { width: 780 });
    expect(marksOf(chart, "point")).toHaveLength(1);
  });
});

describe("every table chart", () => {
  it.each([bars, boxes, line, { ...line, as: "points" as const }, { ...bars, marks: [] }])(
    "keeps inside its width and draws at any",
    async (drawing) => {
      for (const width of [240, 360, 700, 1100]) {
        const chart = tableChart(drawing, { width });
        const svg = await chartToSvg(chart, { theme: paperTheme, prefix: "t" });
        expect(svg).toContain(`width="${width}"`);
        expect(svg).not.toMatch(/NaN|Infinity|undefined/);
        for (const { x, x2 } of marksOf(chart, "rect")) {
          expect(Math.min(Number(x), Number(x2))).toBeGreaterThanOrEqual(0);
          expect(Math.max(Number(x), Number(x2))).toBeLessThanOrEqual(width);
        }
      }
    },
  );

  it("says in words what it draws", () => {
    expect(tableChart(bars, { width: 700 }).description).toBe(
      "Bars of cases over technique, by macula. buckle, macula on: 12; buckle, macula off: 3; " +
        "vitrectomy, macula on: 0; vitrectomy, macula off: 24.",
    );
    expect(tableChart(boxes, { width: 700 }).description).toContain(
      "buckle: median 5, quartiles 3 and 8, of 9",
    );
    expect(tableChart({ ...bars, marks: [] }, { width: 700 }).description).toContain(
      "Nothing is drawn",
    );
    expect(tableChart({ ...line, as: "points" }, { width: 700 }).description).toContain(
      "2022-01-08 to 2022-04-08 across, 10% to 30% up",
    );
  });

  it.each(hostileLabels)("takes the label %j as text and nothing else", async (label) => {
    const drawing = {
      ...bars,
      by: label,
      across: { label, kind: "groups" as const, names: [label, "x"] },
      up: { label, kind: "count" as const },
      groups: [label, "y"],
    };
    const chart = tableChart(drawing, { width: 780 });
    const svg = await chartToSvg(chart, { theme: paperTheme, prefix: "t" });
    const tags = new Set(Array.from(svg.matchAll(/<\/?([^\s/>]+)/g), (match) => match[1]));
    for (const tag of tags) expect(["svg", "g", "path", "line", "text"]).toContain(tag);
    const codes = expressionsIn(compile(chart.spec as TopLevelSpec).spec);
    for (const code of codes) expect(code).not.toContain(plainText(label).slice(0, 30));
    expect(chart.data[0]?.across).toBe(label);
  });
});

describe("the value axis", () => {
  it.each([
    [[3, 17], "number", true, [0, 5, 10, 15, 20]],
    [[0.12, 0.31], "share", true, [0, 0.1, 0.2, 0.3, 0.4]],
    [[1, 2], "count", true, [0, 1, 2]],
    [[2023, 2025], "number", false, [2023, 2024, 2025]],
    [[5], "number", false, [5, 6]],
    [[-3, 2.5], "number", false, [-4, -2, 0, 2, 4]],
    [[], "count", true, [0, 1]],
  ] as const)("holds %j (%s) from zero: %s", (values, kind, fromZero, ticks) => {
    const axis = valueAxis(values, { kind, fromZero, ticks: 5 });
    expect(axis.ticks.map(({ value }) => value)).toEqual(ticks);
    for (const value of values) {
      expect(value).toBeGreaterThanOrEqual(axis.min);
      expect(value).toBeLessThanOrEqual(axis.max);
    }
  });

  it.each([
    [19000, 19730, ["2022-07", "2023-01", "2023-07", "2024-01"]],
    [15000, 19730, ["2015", "2020"]],
    [19000, 19008, ["2022-01-08", "2022-01-10", "2022-01-12", "2022-01-14", "2022-01-16"]],
  ])("marks days %i to %i", (from, to, texts) => {
    const axis = valueAxis([from, to], { kind: "day", fromZero: false, ticks: 5 });
    expect(axis.ticks.map(({ text }) => text)).toEqual(texts);
    expect([axis.min, axis.max]).toEqual([from, to]);
  });
});

type Row = Layer["data"]["values"][number];

function layersOf(chart: Chart): readonly Layer[] {
  return (chart.spec as { readonly layer: readonly Layer[] }).layer;
}

function marksOf(chart: Chart, type: string): readonly Row[] {
  return layersOf(chart)
    .filter(({ mark }) => mark.type === type)
    .flatMap(({ data }) => data.values);
}

/** Sizes as shares of the greatest, which stands for `most`. */
function inProportion(sizes: readonly number[], most: number): number[] {
  return sizes.map((size) => Number(((most * size) / Math.max(...sizes)).toFixed(9)));
}

function barsOf(chart: Chart): readonly Row[] {
  return marksOf(chart, "rect");
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
