import type { AttachmentCurves, CurveGroup } from "../../src/charts/attachment-curves.ts";
import type { CaseFlow } from "../../src/charts/case-flow.ts";
import type { FailureCauses } from "../../src/charts/causes-chart.ts";
import type { RateIntervals } from "../../src/charts/rate-intervals.ts";

/** Invented numbers in the shapes that the charts take. */

export function exampleGroup(label: string, shift = 0): CurveGroup {
  return {
    label,
    total: 120,
    steps: [
      { time: 0, survival: 0.99 - shift, lower: 0.94 - shift, upper: 1 - shift, atRisk: 120 },
      { time: 41, survival: 0.93 - shift, lower: 0.86 - shift, upper: 0.97 - shift, atRisk: 110 },
      { time: 130, survival: 0.88 - shift, lower: 0.8 - shift, upper: 0.93 - shift, atRisk: 90 },
    ],
    censored: [
      { time: 60, survival: 0.93 - shift, count: 2 },
      { time: 200, survival: 0.88 - shift, count: 5 },
    ],
    end: 365,
    dimFrom: 300,
  };
}

export function exampleCurves(groups: readonly CurveGroup[]): AttachmentCurves {
  return {
    groups,
    until: 365,
    atRiskTimes: [0, 91, 183, 274, 365],
    atRisk: groups.map(() => [120, 104, 77, 41, 9]),
    failed: groups.map(() => [1, 8, 14, 14, 14]),
    timeLabel: "months",
  };
}

export const techniques = ["vitrectomy", "scleral buckle", "vitrectomy with buckle"];

export const hostileLabels = [
  `quote " and backslash \\`,
  "<script>alert(1)</script>",
  "__proto__",
  "constructor",
  "datum['time']",
  "line\nbreak\r\nand\ttab",
  "bell\u0007 and half \ud800 a character",
  "x".repeat(200),
  "many words ".repeat(20),
  "]]> &amp; <!-- &#x41;",
  'url(#clip1) id="clip1"',
  "",
];

export const exampleIntervals: RateIntervals = {
  counted: "failed",
  tone: "failed",
  reference: { rate: 0.1, label: "10% standard" },
  rows: [
    { label: "vitrectomy", events: 25, total: 212, rate: 25 / 212, lower: 0.0811, upper: 0.1684 },
    {
      label: "pneumatic retinopexy",
      events: 8,
      total: 31,
      rate: 8 / 31,
      lower: 0.137,
      upper: 0.432,
    },
    { label: "observed", events: 0, total: 0, rate: null, lower: null, upper: null },
  ],
};

export const exampleCauses: FailureCauses = {
  total: 60,
  causes: [
    { label: "not recorded", count: 40, share: 40 / 60, unknown: true },
    { label: "residual traction", count: 6, share: 0.1, pick: "traction" },
    { label: "new or missed break", count: 14, share: 14 / 60 },
  ],
};

export const exampleFlow: CaseFlow = {
  stages: [
    {
      label: "rows read",
      count: 486,
      leftOut: [
        { label: "same operation entered twice", count: 6 },
        { label: "no eye given", count: 5, pick: "no-eye" },
      ],
    },
    { label: "eyes analysed", count: 475, leftOut: [] },
  ],
  outcomes: [
    { label: "attached at last visit", count: 400, tone: "attached" },
    { label: "redetached", count: 60, tone: "failed" },
    { label: "not yet decided", count: 15 },
  ],
};
