import type { AttachmentCurves, CurveGroup } from "../../src/charts/attachment-curves.ts";
import type { CalibrationPoints } from "../../src/charts/calibration-points.ts";
import type { CaseFlow } from "../../src/charts/case-flow.ts";
import type { FailureCauses } from "../../src/charts/causes-chart.ts";
import type { EffectIntervals } from "../../src/charts/effect-intervals.ts";
import type { IncidenceCurves } from "../../src/charts/incidence-curves.ts";
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

export const exampleEffects: EffectIntervals = {
  scale: "ratio",
  measure: "odds ratio",
  counted: "failed",
  sides: { below: "fewer failures", above: "more failures" },
  rows: [
    { label: "PVR B or C", count: "22 of 80", estimate: 2.07, lower: 1.2, upper: 3.6, pick: "pvr" },
    {
      label: "PVR none or A",
      count: "31 of 240",
      estimate: null,
      lower: null,
      upper: null,
      note: "reference",
    },
    { label: "giant tear", count: "3 of 3", estimate: 14.2, lower: 1.1, upper: 190 },
    { label: "buckle", count: "0 of 30", estimate: 0, lower: 0, upper: 0.51 },
    { label: "all together", count: "", estimate: 1.4, lower: 0.9, upper: 2.2, isSummary: true },
  ],
};

export const exampleIncidence: IncidenceCurves = {
  measure: "causes of failure",
  until: 365,
  atRiskTimes: [0, 91, 183, 274, 365],
  groups: [{ label: "all eyes" }],
  atRisk: [[120, 104, 77, 41, 9]],
  timeLabel: "months",
  curves: [
    {
      label: "PVR",
      end: 365,
      pick: "all:0",
      steps: [
        { time: 20, incidence: 0.04, lower: 0.02, upper: 0.07, pick: "all:0:0" },
        { time: 130, incidence: 0.12, lower: 0.07, upper: 0.18, pick: "all:0:1" },
      ],
    },
    {
      label: "death",
      end: 300,
      steps: [{ time: 100, incidence: 0.015, lower: null, upper: null }],
    },
  ],
};

export const exampleCalibration: CalibrationPoints = {
  counted: "failed",
  curve: [
    { predicted: 0.02, observed: 0.03 },
    { predicted: 0.12, observed: 0.1 },
    { predicted: 0.3, observed: 0.24 },
  ],
  points: [
    {
      eyes: 20,
      events: 1,
      predicted: 0.05,
      observed: 0.05,
      lower: 0.0089,
      upper: 0.2361,
      pick: "c0",
    },
    { eyes: 20, events: 4, predicted: 0.2, observed: 0.2, lower: 0.0807, upper: 0.416, pick: "c1" },
  ],
};
