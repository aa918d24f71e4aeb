import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCases } from "../../../src/cases/read-cases.ts";
import { layChart } from "../../../src/charts/chart-request.ts";
import { check } from "../../../src/formula/check.ts";
import { parse } from "../../../src/formula/parse.ts";
import { completeness } from "../../../src/questions/completeness/completeness.ts";
import { tableQuestions } from "../../../src/questions/tables/table-words.ts";
import { vocabulary } from "../../../src/questions/vocabulary.ts";
import { ask, casesValue, workedOut } from "../ask.ts";

/** The invented cases that come with the product. */
const bytes = new Uint8Array(readFileSync("data-demo/repairs.csv"));
const reading = readCases({ name: "repairs.csv", bytes });
const linesInFile = new TextDecoder().decode(bytes).trimEnd().split("\n").length;
const cases = casesValue(reading);
const cells = { cases, eyes: workedOut("index_eyes(cases)", { cases }) };

const workings = [
  ...[...tableQuestions, completeness].map(({ example }) => example),
  "completeness(eyes)",
  "count_by(eyes, by: state, against: technique)",
  'count_by(leave_out(cases, technique = "oil removal"), band(age, [40, 60]), macula)',
  "summarise(eyes, failures: count_where(event), share(event), by: surgeon)",
  'chart(eyes, across: first_of_month(operation_date), up: share(event), as: "line")',
  "show(sort_by(with_column(cases, wait: symptom_days + 1 day), wait), case, wait)",
  "count_by(join(eyes, keep(cases, operation_number > 1), on: case), by: technique_2)",
];

describe.each(workings)("%s", (working) => {
  test("passes the check that a working gets as it is typed", () => {
    const { tree } = parse(working);
    if (tree === null) throw new Error("unreadable");
    expect(check(tree, { vocabulary, cells: new Set(["cases", "eyes"]) })).toEqual([]);
  });

  test("answers, and every number that opens leads to lines of the file", () => {
    const { answer, sentence, lines, figures } = ask(working, cells);
    expect(sentence).toMatch(/^\S.*\.$/);
    expect(figures).not.toEqual({});
    const picked = answer.table.rows.flat().filter(({ pick }) => pick !== undefined);
    expect(picked.length).toBeGreaterThan(0);
    for (const { pick } of [...picked, ...answer.leftOut]) {
      const opened = lines(pick).flat();
      if (pick !== undefined) expect(opened.length).toBeGreaterThan(0);
      for (const line of opened) {
        expect(line).toBeGreaterThan(1);
        expect(line).toBeLessThanOrEqual(linesInFile);
      }
    }
  });

  test("counts that open are as many as the rows they open", () => {
    const { answer, lines } = ask(working, cells);
    for (const { pick, value, text } of answer.table.rows.flat()) {
      if (pick === undefined || typeof value !== "number" || /^row\d/.test(pick)) continue;
      if (answer.question !== "completeness")
        expect([text, lines(pick).length]).toEqual([text, value]);
    }
    if (answer.chart !== undefined) {
      expect(layChart(answer.chart, { width: 640 }).data.length).toBeGreaterThan(0);
    }
  });

  test("used and left out are all the rows it began with", () => {
    const { answer, lines } = ask(working, cells);
    for (const { count, pick } of answer.leftOut) expect(lines(pick)).toHaveLength(count);
    const out = answer.leftOut.reduce((sum, { count }) => sum + count, 0);
    const isJoin = working.includes("join(");
    if (answer.unit === "cases" && !isJoin) expect(answer.used + out).toBe(reading.rowsRead);
  });
});
