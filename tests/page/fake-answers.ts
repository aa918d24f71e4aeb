import type { CurveGroup } from "../../src/charts/attachment-curves.ts";
import type { Answer, AnswerCell } from "../../src/questions/answer.ts";

const text = (shown: string): AnswerCell => ({ text: shown, value: shown });
const count = (value: number, pick: string): AnswerCell => ({ text: String(value), value, pick });

/** Failed and eyes by technique, with rate and limits in percent. */
const rates: readonly (readonly [string, number, number, number, number])[] = [
  ["vitrectomy", 25, 212, 8.1, 16.8],
  ["scleral buckle", 18, 141, 8.2, 19.3],
  ["vitrectomy with buckle", 9, 58, 8.4, 26.9],
  ["pneumatic retinopexy", 8, 31, 13.7, 43.2],
];

export const rateAnswer: Answer = {
  question: "failure_rate",
  asks: "How often did it fail?",
  sentence: [
    "Of 442 eyes, ",
    { text: "60 redetached", role: "failed", pick: "all failed" },
    " within a year: 13.6% (95% interval 10.7 to 17.1). If all ",
    { text: "23 eyes", pick: "undecided" },
    " not yet decided or lost had failed, 18.8%.",
  ],
  table: {
    columns: [
      { label: "technique", kind: "text" },
      { label: "failed", kind: "number" },
      { label: "eyes", kind: "number" },
      { label: "rate", kind: "number" },
      { label: "95% interval", kind: "number" },
      { label: "10% standard", kind: "mark" },
    ],
    rows: rates.map(([technique, failed, eyes, lower, upper]) => [
      text(technique),
      count(failed, `${technique}, failed`),
      count(eyes, technique),
      text(`${((100 * failed) / eyes).toFixed(1)}%`),
      text(`${lower} – ${upper}`),
      {
        text: "",
        value: failed / eyes,
        mark: {
          rate: failed / eyes,
          lower: lower / 100,
          upper: upper / 100,
          reference: 0.1,
          most: 0.5,
        },
      },
    ]),
  },
  cautions: [
    {
      code: "techniques-chosen",
      text: "Techniques were chosen for reasons: these rows do not compare them.",
    },
  ],
  unit: "eyes",
  used: 442,
  leftOut: [{ reason: "no visit after the operation", count: 7, pick: "never seen" }],
  figures: { rate: 60 / 442 },
};

const curve = (label: string, total: number, steps: readonly (readonly [number, number])[]) =>
  ({
    label,
    total,
    steps: steps.map(([time, survival], i) => ({
      time,
      survival,
      lower: Math.max(0, survival - 0.04),
      upper: Math.min(1, survival + 0.04),
      atRisk: total - 5 * i,
      pick: `${label}, day ${time}`,
    })),
    censored: [200, 260, 320].map((time) => ({
      time,
      survival: steps.at(-1)?.[1] ?? 1,
      count: 3,
    })),
    end: 365,
    pick: label,
  }) satisfies CurveGroup;

export const curveAnswer: Answer = {
  question: "attachment_curve",
  asks: "When did it fail?",
  sentence: ["Most failures came in the first three months."],
  table: {
    columns: [
      { label: "technique", kind: "text" },
      { label: "3 months", kind: "number" },
      { label: "12 months", kind: "number" },
    ],
    rows: [
      [text("vitrectomy"), text("90%"), text("84%")],
      [text("scleral buckle"), text("88%"), text("87%")],
    ],
  },
  chart: {
    draw: "attachment curves",
    curves: {
      groups: [
        curve("vitrectomy", 212, [
          [0, 0.99],
          [30, 0.93],
          [90, 0.89],
          [330, 0.84],
        ]),
        curve("scleral buckle", 141, [
          [20, 0.96],
          [41, 0.9],
          [90, 0.87],
        ]),
        curve("pneumatic retinopexy", 31, [
          [18, 0.93],
          [60, 0.8],
          [100, 0.71],
        ]),
      ],
      until: 365,
      atRiskTimes: [0, 91, 183, 274, 365],
      atRisk: [
        [212, 190, 134, 62, 0],
        [141, 124, 90, 46, 0],
        [31, 24, 19, 8, 0],
      ],
      timeLabel: "months",
    },
  },
  cautions: [],
  unit: "eyes",
  used: 442,
  leftOut: [],
  figures: {},
};

export const causesAnswer: Answer = {
  question: "failure_causes",
  asks: "Why did it fail?",
  sentence: [
    "Scar tissue explains half of the failures; a break missed or newly formed, a quarter.",
  ],
  table: {
    columns: [
      { label: "cause", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: "share", kind: "number" },
    ],
    rows: [
      [text("proliferative vitreoretinopathy"), count(31, "PVR"), text("52%")],
      [text("new or missed break"), count(15, "break"), text("25%")],
      [text("residual traction"), count(6, "traction"), text("10%")],
    ],
  },
  cautions: [{ code: "cause-missing", text: "Cause missing in 4 of 60." }],
  unit: "eyes",
  used: 60,
  leftOut: [],
  figures: {},
};
