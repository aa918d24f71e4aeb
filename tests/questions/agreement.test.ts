import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import { layChart } from "../../src/charts/chart-request.ts";
import type { Thing } from "../../src/formula/value.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import type { EyeRecord } from "../../src/outcomes/eye-record.ts";
import { type Answer, type Figure, sentenceText } from "../../src/questions/answer.ts";
import { rulesClause } from "../../src/questions/answering/failure-words.ts";
import { ask, casesValue, workedOut } from "./ask.ts";

/**
 * Sentence, brief, table and chart of an answer say the same numbers to the displayed digit: every
 * number of the words stands in the table, or is a figure of the answer as it is displayed.
 */
const { notebook } = readNotebook(readFileSync("notebooks/demo.md", "utf8"));
const reading = readCases(
  { name: "repairs.csv", bytes: new Uint8Array(readFileSync("data-demo/repairs.csv")) },
  { matching: notebook.front.matching },
);
const cases = casesValue(reading);
const cells = { cases, eyes: workedOut("index_eyes(cases, within: 12 months)", { cases }) };

const eyesGiven = (cells.eyes as Thing).content as EyeRecord;

const source = 'source: "agreed by the unit"';
const split = [
  "failure_rate(eyes, within: 12 months",
  "attachment_curve(eyes",
  "follow_up(eyes",
  "failure_causes(eyes",
  "failure_incidence(eyes",
  "definitions(cases",
  "after_failure(cases",
  "acuity_change(eyes",
].flatMap((start) =>
  ["", ", by: technique", ", by: macula", ", by: pvr_grade"].map((by) => `${start}${by})`),
);
const workings = [
  ...split,
  'clock_hours(eyes, inferior: "5 to 7")',
  "suitability(eyes)",
  "rate_difference(eyes, by: technique)",
  "rate_difference(eyes, by: sex, strata: macula)",
  "curve_comparison(eyes, by: technique)",
  "curve_comparison(eyes, by: macula)",
  "hazard_model(eyes, age, macula, sex)",
  "risk_model(eyes, age, macula, sex)",
  "standardised_rate(eyes, age, macula, by: technique)",
  `standard(failure_rate(eyes, by: technique), at_least: 85%, ${source})`,
  `standard(acuity_change(eyes, by: macula), at_least: 50%, ${source})`,
  `standard(acuity_change(eyes, by: macula), at_most: 5%, ${source})`,
  `standard(attachment_curve(eyes), at_least: 85%, ${source})`,
  "case_flow(cases)",
  "completeness(cases)",
];

/** "1,234", "12.5" and "0.048" as digits; the sign and what stands around a number is not read. */
function numbersIn(text: string): string[] {
  return [...text.matchAll(/\d+(?:,\d{3})*(?:\.\d+)?/g)].map(([each]) => each.replaceAll(",", ""));
}

/** A figure as it may be displayed: a count, a share in per cent, or with one to four decimals. */
function displayed(figure: Figure): string[] {
  if (typeof figure === "string") return numbersIn(figure);
  if (typeof figure === "number") {
    const size = Math.abs(figure);
    const texts = [String(size), (100 * size).toFixed(1), size.toPrecision(2)];
    // p values below this are shown as "p < 0.0001".
    if (size < 0.0001) texts.push("0.0001");
    return [...texts, ...[0, 1, 2, 3, 4].map((digits) => size.toFixed(digits))];
  }
  if (typeof figure !== "object" || figure === null) return [];
  return Object.values(figure).flatMap((each) => displayed(each as Figure));
}

/** The window of the eyes asked about: 12 months, the day 365. */
const window = ["12", "365"];

/** What the table says, the figures, what was used and left out; and what was asked. */
function saidBy({ table, figures, leftOut, used }: Answer, working: string): Set<string> {
  const texts = [...table.columns.map(({ label }) => label), ...table.rows.flat().map(textOf)];
  const out = leftOut.reduce((sum, { count }) => sum + count, 0);
  return new Set([
    ...texts.flatMap(numbersIn),
    ...displayed(figures),
    ...leftOut.flatMap(({ count, reason }) => [String(count), ...numbersIn(reason)]),
    ...[used, out, used + out].map(String),
    ...numbersIn(working),
    ...window,
  ]);
}

/** How the eyes were counted, the same in every answer: of the eyes, not of the answer. */
const ofTheEyes = sentenceText(rulesClause(eyesGiven));

function textOf({ text }: { readonly text: string }): string {
  return text;
}

describe.each(workings)("%s", (working) => {
  const { answer } = ask(working, cells);
  const said = saidBy(answer, working);
  const unsaid = (text: string): string[] =>
    numbersIn(text.replace(ofTheEyes, "")).filter((each) => !said.has(each));

  test("says the numbers of its table in its sentence", () => {
    const sentence = sentenceText(answer.sentence);
    expect(numbersIn(sentence).length).toBeGreaterThan(0);
    expect(unsaid(sentence), sentence).toEqual([]);
    const brief = sentenceText(answer.brief ?? []);
    expect(numbersIn(brief).length, "the brief").toBeGreaterThan(0);
    expect(unsaid(brief), "the brief").toEqual([]);
  });

  test("draws the numbers of its table, and tells them in the chart's alternative", () => {
    if (answer.chart === undefined) throw new Error("no chart");
    const { description } = layChart(answer.chart, { width: 780 });
    expect(numbersIn(description).length).toBeGreaterThan(0);
    expect(unsaid(description), description).toEqual([]);
  });

  test("shows a true minus sign, and no hyphen before a number", () => {
    const shown = [
      sentenceText(answer.sentence),
      sentenceText(answer.brief ?? []),
      ...answer.table.rows.flat().map(textOf),
      ...answer.cautions.map(textOf),
    ];
    expect(shown.filter((text) => /(^|[\s(])-\d/.test(text))).toEqual([]);
  });
});
