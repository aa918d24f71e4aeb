import type { CellView, NotebookView } from "../../src/page/protocol.ts";
import { causesAnswer, curveAnswer, rateAnswer } from "./fake-answers.ts";

const cell = (facts: Partial<CellView> & Pick<CellView, "name" | "nature">): CellView => ({
  working: "",
  status: "current",
  waitsFor: [],
  problems: [],
  feedsOn: [],
  feeds: [],
  because: "Recalculated because the cases were opened.",
  minuted: [],
  ...facts,
});

/** One cell of every nature and in every state. */
export const cellViews: readonly CellView[] = [
  cell({
    name: "failure_means",
    nature: "setting",
    working: 'choose(["redetachment", "reoperation"], now: "redetachment")',
    setting: {
      type: "choice",
      options: [
        "redetachment",
        "reoperation",
        "not attached without oil",
        "detached at last visit",
      ],
      now: 0,
    },
    feeds: ["eyes"],
  }),
  cell({
    name: "window",
    nature: "setting",
    working: "choose([3 months, 6 months, 12 months], now: 12 months)",
    setting: { type: "choice", options: ["3 months", "6 months", "12 months"], now: 2 },
    feeds: ["eyes"],
  }),
  cell({
    name: "eyes",
    nature: "eyes",
    kind: "eyes",
    working: "index_eyes(cases, failure: failure_means, within: window)",
    plain: "442 eyes of 430 patients; 6 rows left out.",
    feedsOn: ["failure_means", "window"],
    feeds: ["how_often", "when", "why"],
  }),
  cell({
    name: "how_often",
    nature: "failure rate",
    kind: "answer",
    working: "failure_rate(eyes, by: technique)",
    answer: rateAnswer,
    feedsOn: ["eyes"],
    minuted: [
      { date: "2026-03-14", text: "60 of 442", holds: true, because: [] },
      {
        date: "2025-09-12",
        text: "52 of 410",
        holds: false,
        now: "60 of 442: 32 rows are new",
        because: [],
      },
    ],
  }),
  cell({
    name: "when",
    nature: "attachment curve",
    kind: "answer",
    working: "attachment_curve(eyes, by: technique, landmarks: [3 months, 6 months, 12 months])",
    answer: curveAnswer,
    feedsOn: ["eyes", "failure_means"],
  }),
  cell({
    name: "why",
    nature: "failure causes",
    kind: "answer",
    working: "failure_causes(eyes)",
    answer: causesAnswer,
    feedsOn: ["eyes"],
  }),
  cell({
    name: "slip",
    nature: "at fault",
    status: "at fault",
    working: "failure_rate(eyes, by: techniqe)",
    problems: [
      {
        code: "unknown-name",
        severity: "stop",
        place: { cell: "slip", span: { start: 23, end: 31 } },
        message: "nothing is called `techniqe`.",
        expected: "technique",
        remedy: "write `technique`",
        replacement: "technique",
      },
    ],
  }),
  cell({
    name: "after_slip",
    nature: "value",
    status: "waiting",
    working: "1 - slip.rate",
    waitsFor: ["slip"],
    feedsOn: ["slip"],
  }),
  cell({ name: "busy", nature: "failure rate", status: "recalculating", answer: rateAnswer }),
  cell({
    name: "standard",
    nature: "setting",
    setting: { type: "number", least: 0, most: 100, step: 1, now: 10, unit: "%" },
  }),
  cell({ name: "with_oil", nature: "setting", setting: { type: "yes or no", now: true } }),
  cell({ name: "period", nature: "setting", setting: { type: "dates", from: 19358, to: 20453 } }),
];

export const notebookView: NotebookView = {
  name: "demo.md",
  title: "Saltmarsh eye unit · primary repairs",
  period: "2023–2025",
  problems: [],
  undo: "change window",
  blocks: [
    { type: "row", cells: ["failure_means", "window"] },
    { type: "row", cells: ["eyes"] },
    { type: "heading", level: 2, text: "How often did it fail?" },
    {
      type: "prose",
      text: "Every eye with a *primary repair* in the period, followed to its last visit.\n\n- lost eyes are counted\n- oil is **not** success",
    },
    { type: "row", cells: ["how_often"] },
    { type: "row", cells: ["when", "why"] },
    { type: "row", cells: ["slip", "after_slip"] },
    { type: "row", cells: ["busy"] },
    { type: "row", cells: ["standard", "with_oil", "period"] },
  ],
};
