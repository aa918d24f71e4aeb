import { describe, expect, it } from "vitest";
import type { ChartRequest } from "../../src/charts/chart-request.ts";
import { chartAsCsv, chartAsTabs } from "../../src/page/sheet/chart-copies.ts";
import { groupsToHide, withoutGroups } from "../../src/page/sheet/chart-groups.ts";
import { walksOf } from "../../src/page/sheet/chart-walk.ts";

const none = { columns: [], rows: [] };

const curves: Extract<ChartRequest, { draw: "attachment curves" }> = {
  draw: "attachment curves",
  curves: {
    until: 183,
    atRiskTimes: [0, 91, 183],
    atRisk: [
      [10, 8, 7],
      [4, 4, 4],
    ],
    timeLabel: "months",
    groups: [
      {
        label: "scleral buckle",
        total: 10,
        end: 183,
        censored: [],
        steps: [
          { time: 41, survival: 0.9, lower: 0.73, upper: 0.97, atRisk: 10, pick: "b41" },
          { time: 90, survival: 0.8, lower: null, upper: null, atRisk: 9 },
          { time: 200, survival: 0.7, lower: null, upper: null, atRisk: 2 },
        ],
      },
      { label: "=SUM(A1)", total: 4, end: 183, censored: [], steps: [] },
    ],
  },
};

describe("the points of a chart in words", () => {
  it("tell group, day, share attached, interval and eyes at risk", () => {
    expect(walksOf(curves, none)).toEqual([
      {
        points: [
          { words: "scleral buckle, day 0, 100.0% still attached, 10 at risk" },
          {
            words:
              "scleral buckle, day 41, 90.0% still attached (95% interval 73.0% to 97.0%), 10 at risk",
            pick: "b41",
          },
          { words: "scleral buckle, day 90, 80.0% still attached, 9 at risk" },
        ],
      },
      { points: [{ words: "=SUM(A1), day 0, 100.0% still attached, 4 at risk" }] },
    ]);
  });

  it("are the rows of the table where there are no curves", () => {
    const chart: ChartRequest = {
      draw: "intervals",
      intervals: { tone: "failed", counted: "failed", rows: [] },
    } as never;
    const table = {
      columns: [
        { label: "technique", kind: "text" },
        { label: "failed", kind: "number" },
        { label: "", kind: "mark" },
      ],
      rows: [
        [
          { text: "vitrectomy", value: "vitrectomy" },
          { text: "25", value: 25, pick: "v" },
          { text: "", value: null },
        ],
      ],
    } as const;
    expect(walksOf(chart, table)).toEqual([
      { points: [{ words: "vitrectomy, failed 25", pick: "v" }] },
    ]);
  });
});

describe("groups of a chart", () => {
  it("are hidden without changing the hue of the others", () => {
    expect(groupsToHide(curves)).toEqual(["scleral buckle", "=SUM(A1)"]);
    const hidden = withoutGroups(curves, new Set([0])) as typeof curves;
    expect(hidden.curves.groups.map(({ label, total }) => [label, total])).toEqual([
      ["scleral buckle", 0],
      ["=SUM(A1)", 4],
    ]);
    expect(walksOf(hidden, none)).toHaveLength(1);
    expect(groupsToHide(undefined)).toEqual([]);
  });
});

describe("the numbers of a chart", () => {
  const chart = {
    kind: "k",
    spec: {},
    description: "",
    width: 1,
    height: 1,
    columns: [
      { field: "g", label: "group" },
      { field: "x", label: "share" },
    ],
    data: [
      { g: "=SUM(A1)", x: 0.123456789012 },
      { g: "a,b", x: null },
    ],
  };

  it("are unrounded, and no text becomes a formula", () => {
    expect(chartAsCsv(chart)).toBe('group,share\r\n\'=SUM(A1),0.123456789012\r\n"a,b",\r\n');
    expect(chartAsTabs(chart)).toBe("group\tshare\n'=SUM(A1)\t0.123456789012\na,b\t");
  });
});
