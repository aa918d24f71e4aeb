import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { departments } from "../../../data-demo/write-departments.ts";
import { readAggregates } from "../../../src/aggregates/read-aggregates.ts";
import { layChart } from "../../../src/charts/chart-request.ts";
import { poolingQuestions } from "../../../src/questions/pooling/pooling-questions.ts";
import { asked } from "./fictional-departments.ts";

/** The example of each question about departments, over the files that the three invented ones sent. */
const files = departments.map(({ file }) => {
  const read = readAggregates(file, readFileSync(`data-demo/departments/${file}`, "utf8"));
  if (!("aggregates" in read)) throw new Error(`${file} cannot be read`);
  return read.aggregates;
});

test("there are five of them", () => {
  expect(poolingQuestions.map(({ name }) => name).sort()).toEqual([
    "pooled_curve",
    "pooled_difference",
    "pooled_funnel",
    "pooled_incidence",
    "pooled_rate",
  ]);
});

describe.each(poolingQuestions.map(({ name, example }) => ({ name, example })))(
  "the example of $name",
  ({ name, example }) => {
    const { answer, sentence, cautions } = asked(example, { files });

    test("answers, in words without a gap", () => {
      expect(answer.question).toBe(name);
      expect(answer.used).toBeGreaterThan(0);
      expect(sentence).toMatch(/^[A-Z].*\.$/);
      expect(sentence).not.toMatch(/NaN|undefined|null|Infinity|significan| {2}|\.\./);
      expect(JSON.stringify(answer)).not.toMatch(/NaN|undefined/);
      expect(answer.figures.headline).toEqual(expect.any(String));
    });

    test("has as many cells in each row as columns, and a label first", () => {
      const { columns, rows } = answer.table;
      expect(rows.length).toBeGreaterThan(0);
      for (const row of rows) {
        expect(row).toHaveLength(columns.length);
        expect(row[0]?.text).not.toBe("");
      }
    });

    test("draws at the width of a page and of a telephone", () => {
      if (answer.chart === undefined) throw new Error("no chart");
      for (const width of [780, 390]) {
        const chart = layChart(answer.chart, { width });
        expect(chart.width).toBe(width);
        expect(JSON.stringify(chart)).not.toContain("null,null");
        expect(chart.description).not.toMatch(/NaN|undefined/);
      }
    });

    test("says what departments cannot be compared by, and opens no eye", () => {
      expect(cautions).toContain("departments-differ");
      expect(JSON.stringify(answer)).not.toContain('"pick"');
    });
  },
);
