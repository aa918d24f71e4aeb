import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { generateDemo } from "../../data-demo/generate.ts";
import { dayFromParts } from "../../src/cases/calendar-day.ts";
import type { Matching } from "../../src/cases/matching.ts";
import { readCases } from "../../src/cases/read-cases.ts";
import { rowCount } from "../../src/cases/table.ts";
import { codesOf, readText, valuesOf } from "./read-text.ts";

const data = join(import.meta.dirname, "../references/data");

/** The 394 eyes of the laser trial in R's survival package. */
describe("a file that is no case file", () => {
  const bytes = readFileSync(join(data, "retinopathy.csv"));
  const lines = bytes.toString().trim().split("\n").slice(1);

  test("keeps every value under names of its own", () => {
    const reading = readCases({ name: "retinopathy.csv", bytes });
    expect(reading).toMatchObject({ rowsRead: 394, leftOut: [] });
    expect(reading.columns.map(({ name }) => name)).toEqual(
      "patient laser eye age type trt futime status risk".split(" "),
    );
    expect(codesOf(reading)).toEqual(["heading-guessed"]);
    expect(new Set(valuesOf(reading, "patient")).size).toBe(197);
    const futime = lines.map((line) => Number(line.split(",")[6]));
    expect(valuesOf(reading, "futime")).toEqual(futime);
    const failed = lines.filter((line) => line.split(",")[7] === "1").length;
    expect(valuesOf(reading, "status")?.filter((value) => value === 1)).toHaveLength(failed);
  });

  test("is read as a notebook says", () => {
    const matching: Matching = {
      columns: new Map([
        ["id", { field: "patient" }],
        ["futime", { name: "follow_up_months", kind: "number", unit: "months" }],
        ["status", { name: "lost_vision", kind: "truth" }],
        ["trt", { name: "lasered", kind: "truth" }],
        ["risk", { leave: true }],
      ]),
      values: new Map(),
    };
    const reading = readCases({ name: "retinopathy.csv", bytes }, { matching });
    expect(reading.problems).toEqual([]);
    expect(valuesOf(reading, "lasered")?.filter((value) => value === true)).toHaveLength(197);
    expect(valuesOf(reading, "risk")).toBeUndefined();
    expect(reading.columns[8]).toMatchObject({ heading: "risk", by: "dropped" });
  });
});

test.each(["aml", "birthwt", "cmprsk_example", "endometrial", "lung", "rabbits", "rat_tumours"])(
  "%s loses no row",
  (name) => {
    const bytes = readFileSync(join(data, `${name}.csv`));
    const rows = bytes.toString().trim().split("\n").length - 1;
    const reading = readCases({ name, bytes });
    expect(reading.rowsRead).toBe(rows);
    expect(rowCount(reading.cases)).toBe(rows);
  },
);

describe("the invented unit", () => {
  const today = dayFromParts(2026, 12, 31)!;

  test("without faults has none", () => {
    const reading = readText(generateDemo(7, { faults: false }).csv, { today });
    expect(reading.problems).toEqual([]);
    expect(rowCount(reading.cases)).toBe(reading.rowsRead);
  });

  test("has each of its faults found on its line", () => {
    const { csv, faults } = generateDemo(7);
    const reading = readText(csv, { today });
    const found = new Set(reading.problems.map(({ code, place }) => `${code} ${place.line}`));
    for (const { name, line } of faults) {
      const code = codeOfFault.get(name);
      if (code !== undefined) expect(found, name).toContain(`${code} ${line}`);
    }
    expect(rowCount(reading.cases) + reading.leftOut.length).toBe(reading.rowsRead);
  });
});

/** What each deliberate fault is to be called; an eye or a line left empty is no fault of form. */
const codeOfFault: ReadonlyMap<string, string> = new Map([
  ["no such day", "not-a-day"],
  ["age", "out-of-range"],
  ["row twice", "same-operation-twice"],
  ["last seen too early", "last-seen-before-operation"],
  ["unknown technique", "code-unknown"],
  ["redetachment too early", "event-before-operation"],
  ["reoperation alone", "later-operation-without-first"],
  ["acuity unit", "acuity-does-not-fit"],
  ["short row", "row-moved"],
  ["detached without a date", "detached-without-date"],
  ["attached with a redetachment", "attached-after-redetachment"],
  ["gas where unsuitable", "gas-where-unsuitable"],
  ["oil unaccounted for", "oil-unaccounted"],
  ["day to come", "day-in-future"],
  ["totals line", "line-below-table"],
]);
