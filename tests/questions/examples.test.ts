import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { vocabulary } from "../../src/questions/vocabulary.ts";
import { answersWell } from "./answers-well.ts";
import { ask, casesValue, workedOut } from "./ask.ts";

/** The example of each question, over the demo file. */
const { notebook } = readNotebook(readFileSync("notebooks/demo.md", "utf8"));
const reading = readCases(
  { name: "repairs.csv", bytes: new Uint8Array(readFileSync("data-demo/repairs.csv")) },
  { matching: notebook.front.matching },
);
const cases = casesValue(reading);
const cells = { cases, eyes: workedOut("index_eyes(cases, within: 12 months)", { cases }) };

function exampleOf(name: string): string {
  const word = vocabulary.get(name);
  if (word === undefined || !("example" in word)) throw new Error(`${name} has no example`);
  return String(word.example);
}

const questions = [
  "rate_difference",
  "follow_up",
  "failure_incidence",
  "curve_comparison",
  "hazard_model",
  "risk_model",
  "standardised_rate",
  "definitions",
  "after_failure",
  "acuity_change",
  "clock_hours",
  "suitability",
  "standard",
];

describe.each(questions)("the example of %s", (name) => {
  const { answer, sentence, lines } = ask(exampleOf(name), cells);

  answersWell(name, answer, sentence);

  test("opens as many eyes as each count says, on lines of the file", () => {
    const read = new Set(reading.lines);
    const counts = answer.table.rows
      .flat()
      .filter((cell) => cell.pick !== undefined && cell.limits === undefined);
    expect(counts.length).toBeGreaterThan(0);
    for (const { pick, value } of counts) {
      expect(lines(pick)).toHaveLength(Number(value));
      for (const line of lines(pick).flat()) expect(read.has(line)).toBe(true);
    }
  });

  test("names an existing pick wherever it promises one", () => {
    const promised = JSON.stringify([answer.sentence, answer.chart]).matchAll(
      /"(?:pick|failedPick)":"([^"]+)"/g,
    );
    for (const [, pick] of promised) expect(lines(pick).length).toBeGreaterThan(0);
  });
});
