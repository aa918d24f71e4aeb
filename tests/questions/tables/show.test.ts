import { describe, expect, test } from "vitest";
import { tableInWords, tablePreview } from "../../../src/questions/tables/table-preview.ts";
import { ask } from "../ask.ts";
import { casesOfColumns, tableFrom } from "./tables-of.ts";

const cases = casesOfColumns({
  age: { kind: "number", values: [30, null, 71.5] },
  operation_date: { kind: "day", values: [0, 31, null] },
  wait: { kind: "number", unit: "days", values: [1, 2, 3] },
});

describe("show", () => {
  test("the rows with the columns asked for, each leading to its line", () => {
    const { answer, rows, lines, sentence } = ask(
      "show(cases, operation_date, double: age * 2, wait, first: 2)",
      { cases },
    );
    expect(answer.table.columns.map(({ label }) => label)).toEqual([
      ...["operation date", "double", "wait"],
    ]);
    expect(rows).toEqual([
      ["1970-01-01", "60", "1 day"],
      ["1970-02-01", "–", "2 days"],
    ]);
    expect(lines(answer.table.rows[1]?.[0]?.pick)).toEqual([[3]]);
    expect(sentence).toBe("The first 2 of 3 cases are shown.");
  });

  test("all columns, all rows, one row, none", () => {
    expect(ask("show(cases)", { cases }).sentence).toBe("All 3 cases are shown.");
    expect(ask("show(first_rows(cases, 1))", { cases }).sentence).toBe("The only case is shown.");
    expect(ask("show(keep(cases, age > 99))", { cases }).sentence).toBe(
      "There are no cases in this table.",
    );
  });
});

describe("a table on the sheet", () => {
  const { value: _, ...made } = tableFrom("keep(cases, age > 40)", { cases });

  test("previews its first rows and columns, missing values as a dash", () => {
    const preview = tablePreview(made, { rows: 1, width: 2 });
    expect(preview.columns).toEqual([
      { label: "age", kind: "number" },
      { label: "operation date", kind: "text" },
    ]);
    expect(preview.rows).toEqual([
      [
        { text: "71.5", value: 71.5 },
        { text: "–", value: null },
      ],
    ]);
    expect(tablePreview(made, { columns: ["wait", "nothing"] }).columns).toEqual([
      { label: "wait (days)", kind: "number" },
    ]);
  });

  test("says its size and what was left out", () => {
    expect(tableInWords(made)).toBe(
      "1 case in 3 columns; left out: 1 outside the condition age > 40; 1 not recorded whether age > 40.",
    );
  });
});
