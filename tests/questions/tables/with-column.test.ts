import { describe, expect, test } from "vitest";
import { ask, workedOut } from "../ask.ts";
import { casesOfColumns, faultsOf, tableFrom } from "./tables-of.ts";

const cases = casesOfColumns({
  symptom_date: { kind: "day", values: [100, 90, null] },
  operation_date: { kind: "day", values: [103, 121, 130] },
  age: { kind: "number", values: [40, 39.9, 60] },
  lens: { kind: "code", values: ["phakic", "aphakic", null] },
  break_type: { kind: "codes", values: [["round hole", "dialysis"], [], null] },
});

describe("with_column", () => {
  test("a column from others; later ones see those before; missing stays missing", () => {
    const made = tableFrom(
      "with_column(cases, wait: operation_date - symptom_date, long: wait > 14 days)",
      { cases },
    );
    expect(made.column("wait")).toEqual([3, 31, null]);
    expect(made.column("long")).toEqual([false, true, null]);
    expect(made.table.columns.find(({ name }) => name === "wait")).toMatchObject({
      label: "wait",
      kind: "number",
      unit: "days",
    });
    expect(made.lines).toEqual([[2], [3], [4]]);
  });

  test("a copy keeps its kind; a name that is there is worked out anew", () => {
    const made = tableFrom("with_column(cases, when: operation_date, age: age + 1)", { cases });
    expect(made.table.columns.find(({ name }) => name === "when")?.kind).toBe("day");
    expect(made.column("age")).toEqual([41, 40.9, 61]);
    expect(made.table.columns).toHaveLength(6);
  });

  test("without a name there is no column", () => {
    expect(faultsOf("with_column(cases, age + 1)", { cases })).toEqual([
      "a column needs a name.\n" +
        "  found     age + 1\n" +
        "  expected  a name before the working, such as new_column: age + 1",
    ]);
  });
});

describe("band", () => {
  test("a cut belongs to the band above, and the order is that of the scale", () => {
    const made = tableFrom("with_column(cases, decade: band(age, [40, 60]))", { cases });
    expect(made.column("decade")).toEqual(["40 to under 60", "under 40", "60 or over"]);
    expect(made.table.columns.at(-1)).toMatchObject({
      kind: "code",
      order: ["under 40", "40 to under 60", "60 or over"],
    });
  });

  test("lengths of time and days have cuts of their own", () => {
    const working =
      "with_column(cases, wait: band(operation_date - symptom_date, [1 week]), " +
      "year: band(operation_date, [1970-05-01, 1970-05-10]))";
    const made = tableFrom(working, { cases });
    expect(made.column("wait")).toEqual(["under 1 week", "1 week or over", null]);
    expect(made.column("year")).toEqual([
      "before 1970-05-01",
      "1970-05-01 to before 1970-05-10",
      "1970-05-10 or later",
    ]);
  });

  test("single values, with labels", () => {
    expect(workedOut('band(41, [40], ["young", "old"])')).toEqual({ kind: "text", text: "old" });
    expect(workedOut("band(missing, [40])")).toEqual({ kind: "missing" });
  });

  test.each([
    ["band(age, [60, 40])", "rise from low to high"],
    ["band(age, [40, 40])", "rise from low to high"],
    ["band(age, [])", "rise from low to high"],
    ["band(age, [40, missing])", "rise from low to high"],
    ["band(age, [30 days])", "rise from low to high"],
    ["band(age, [age])", "cannot change from row to row"],
    ['band(age, [40], ["all"])', "one cut makes 2 bands"],
    ['band(age, [40, 60], ["a", "b", "a"])', "2 cuts make 3 bands"],
    ["band(lens, [40])", "was expected for `value`"],
  ])("refuses %s", (working, message) => {
    expect(faultsOf(`with_column(cases, b: ${working})`, { cases }).join()).toContain(message);
  });
});

describe("group_values", () => {
  test("values under new names in the order given; others stay or are gathered", () => {
    const named = 'group_values(lens, "own lens", ["phakic"])';
    expect(tableFrom(`with_column(cases, l: ${named})`, { cases }).column("l")).toEqual([
      "own lens",
      "aphakic",
      null,
    ]);
    const all = 'group_values(lens, "own lens", ["phakic"], others: "operated")';
    const made = tableFrom(`with_column(cases, l: ${all})`, { cases });
    expect(made.column("l")).toEqual(["own lens", "operated", null]);
    expect(made.table.columns.at(-1)?.order).toEqual(["own lens", "operated"]);
  });

  test("each of several codes by itself, numbers by their value", () => {
    const holes = 'group_values(break_type, "any hole", ["round hole", "macular hole"])';
    expect(tableFrom(`with_column(cases, b: ${holes})`, { cases }).column("b")).toEqual([
      ["any hole", "dialysis"],
      [],
      null,
    ]);
    expect(workedOut('group_values(2, "low", [1, 2], "high", [3])')).toEqual({
      kind: "text",
      text: "low",
    });
    expect(workedOut('group_values(7, "low", [1, 2])')).toEqual({ kind: "text", text: "7" });
  });

  test.each([
    ['group_values(lens, "a")', "groups are given in pairs"],
    ['group_values(lens, ["a"], "a")', "groups are given in pairs"],
    ['group_values(lens, "a", ["x"], "b", ["x"])', "one group only"],
    ['group_values(lens, "a", "x")', "groups are given in pairs"],
  ])("refuses %s", (working, message) => {
    expect(faultsOf(`with_column(cases, b: ${working})`, { cases }).join()).toContain(message);
  });

  test("counts by the new names, not recorded last", () => {
    const { rows } = ask('count_by(cases, by: group_values(lens, "operated", ["aphakic"]))', {
      cases,
    });
    expect(rows).toEqual([
      ["operated", "1", "33.3%"],
      ["phakic", "1", "33.3%"],
      ["not recorded", "1", "33.3%"],
      ["all", "3", "100.0%"],
    ]);
  });
});
