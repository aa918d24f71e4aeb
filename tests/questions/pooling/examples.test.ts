import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { departments } from "../../../data-demo/write-departments.ts";
import { readAggregates } from "../../../src/aggregates/read-aggregates.ts";
import { poolingQuestions } from "../../../src/questions/pooling/pooling-questions.ts";
import { answersWell } from "../answers-well.ts";
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

    answersWell(name, answer, sentence);

    test("has as many cells in each row as columns, and a label first", () => {
      const { columns, rows } = answer.table;
      expect(rows.length).toBeGreaterThan(0);
      for (const row of rows) {
        expect(row).toHaveLength(columns.length);
        expect(row[0]?.text).not.toBe("");
      }
    });

    test("says what departments cannot be compared by, and opens no eye", () => {
      expect(cautions).toContain("departments-differ");
      expect(JSON.stringify(answer)).not.toContain('"pick"');
    });
  },
);
