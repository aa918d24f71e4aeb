import { describe, expect, test } from "vitest";
import { layChart } from "../../../src/charts/chart-request.ts";
import { ask } from "../ask.ts";
import { type Column, casesOfColumns, tableFrom } from "./tables-of.ts";

/** Names that mean something to JavaScript mean nothing here. */
const hostile = ["__proto__", "constructor", "toString", "hasOwnProperty", "__proto__"];
const names = ["__proto__", "constructor", "valueOf"];
const cases = casesOfColumns(
  new Map<string, Column>([
    ...names.map((name) => [name, { kind: "text", values: hostile }] as [string, Column]),
    ["n", { kind: "number", values: [1, 2, 3, 4, null] }],
  ]),
);

describe.each(names)("a column called %s", (name) => {
  test("is kept by, counted, summed up, sorted, joined and drawn like any other", () => {
    expect(tableFrom(`keep(cases, ${name} = "__proto__")`, { cases }).lines).toEqual([[2], [6]]);
    const counts = ask(`count_by(cases, by: ${name}, against: ${name})`, { cases });
    expect(counts.rows.map(([label, , , all]) => [label, all])).toHaveLength(5);
    expect(counts.figures).toMatchObject({ rows: 5 });
    const summary = ask(`summarise(cases, sum(n), by: ${name})`, { cases });
    expect(summary.rows.find(([label]) => label === "__proto__")?.slice(1)).toEqual([
      "2",
      "1",
      "1",
    ]);
    expect(tableFrom(`sort_by(cases, ${name})`, { cases }).part("rows")).toBe(5);
    const joined = `join(first_rows(cases, 3), cases, ${name}, n, rows: "matched only")`;
    expect(tableFrom(joined, { cases }).part("rows")).toBe(3);
    const { answer } = ask(`chart(cases, across: ${name}, by: ${name})`, { cases });
    if (answer.chart === undefined) throw new Error("no chart");
    expect(layChart(answer.chart, { width: 600 }).description).toContain("__proto__");
  });

  test("can be a name for a column or a summary of one's own", () => {
    const made = tableFrom(`with_column(first_rows(cases, 2), ${name}: n + 1)`, { cases });
    expect(made.column(name)).toEqual([2, 3]);
    const { answer } = ask(`summarise(cases, ${name}: sum(n))`, { cases });
    expect(Object.getPrototypeOf(answer.figures)).toBe(Object.prototype);
    expect(Object.entries(answer.figures)).toContainEqual([name, 10]);
  });

  test("leaves every other object as it was", () => {
    ask(`summarise(cases, ${name}: sum(n), by: ${name})`, { cases });
    expect(({} as Record<string, unknown>).n).toBeUndefined();
    expect(Object.keys(Object.prototype)).toEqual([]);
  });
});
