import { describe, expect, test } from "vitest";
import { casesOf, primary } from "../../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "../ask.ts";
import { casesOfColumns, faultsOf, published, tableFrom } from "./tables-of.ts";

const cases = casesOfColumns({
  age: { kind: "number", values: [30, 61, null, 75, 60] },
  macula: { kind: "code", values: ["on", "off", "off", null, "on"] },
});

describe("keep and leave_out", () => {
  test("rows that fit stay, with their lines; what is missing is counted apart", () => {
    const kept = tableFrom("keep(cases, where: age >= 60)", { cases });
    expect(kept.lines).toEqual([[3], [5], [6]]);
    expect(kept.column("macula")).toEqual(["off", null, "on"]);
    expect(kept.leftOut).toEqual([
      { reason: "outside the condition age >= 60", lines: [[2]], asked: true },
      { reason: "not recorded whether age >= 60", lines: [[4]], asked: false },
    ]);
    expect([kept.part("rows"), kept.part("left_out")]).toEqual([3, 2]);
  });

  test("leave_out keeps the others, and never what is missing", () => {
    const left = tableFrom("leave_out(cases, age >= 60)", { cases });
    expect(left.lines).toEqual([[2]]);
    expect(left.out).toEqual([
      "3 within the condition age >= 60",
      "1 not recorded whether age >= 60",
    ]);
  });

  test.each([
    "age >= 60",
    'age >= 60 and macula = "off"',
    'age >= 60 or macula = "off"',
    "macula is missing",
    "age > 200",
    "true",
  ])("law: kept, left and missing are all rows, none twice: %s", (where) => {
    const kept = tableFrom(`keep(cases, ${where})`, { cases });
    const left = tableFrom(`leave_out(cases, ${where})`, { cases });
    const missing = kept.leftOut.filter(({ asked }) => !asked).flatMap(({ lines }) => lines);
    const all = [...kept.lines, ...left.lines, ...missing].flat().sort();
    expect(all).toEqual([2, 3, 4, 5, 6]);
  });

  test("one after the other, reasons add up", () => {
    const kept = tableFrom('keep(keep(cases, age >= 60), macula = "on")', { cases });
    expect(kept.lines).toEqual([[6]]);
    expect(kept.out).toEqual([
      "1 outside the condition age >= 60",
      "1 not recorded whether age >= 60",
      '1 outside the condition macula = "on"',
      '1 not recorded whether macula = "on"',
    ]);
  });

  test("eyes are taken as a table with the lines of all their operations", () => {
    const operations = casesValue(
      casesOf([
        primary({ patient: "P1", last_seen_date: 1400, status_last_seen: "attached" }),
        primary({ patient: "P1", operation_date: 1100, technique: "oil removal" }),
        primary({ patient: "P2", eye: null }),
      ]),
    );
    const eyes = workedOut("index_eyes(cases)", { cases: operations });
    const kept = tableFrom('keep(eyes, technique = "vitrectomy")', { eyes });
    expect(kept).toMatchObject({ unit: "eyes", lines: [[2, 3]] });
    expect(kept.out).toEqual(["1 which eye is not recorded"]);
  });

  test("what was asked for is no gap of the record; what is missing is", () => {
    const births = { cases: published("birthwt") };
    expect(ask("count_by(keep(cases, age > 40), by: race)", births).cautions).toEqual([]);
    const gaps = casesOfColumns({ age: { kind: "number", values: [1, null, 2] } });
    const { answer, cautions, lines } = ask("count_by(keep(cases, age > 0), by: age)", {
      cases: gaps,
    });
    expect(cautions).toEqual(["many-left-out"]);
    expect(answer.leftOut).toEqual([
      { reason: "not recorded whether age > 0", count: 1, pick: "out0" },
    ]);
    expect(lines("out0")).toEqual([[3]]);
  });

  test("a condition is needed", () => {
    expect(faultsOf("keep(cases, age)", { cases })).toEqual([
      "age is not a condition.\n" +
        "  found     age\n" +
        "  expected  something that holds or not in each row, such as age >= 60",
    ]);
    expect(faultsOf("keep(cases, agee > 3)", { cases })[0]).toContain("agee");
  });
});

describe("first_rows", () => {
  test("the first so many, or all; none of none", () => {
    expect(tableFrom("first_rows(cases, 2)", { cases }).lines).toEqual([[2], [3]]);
    expect(tableFrom("first_rows(cases, 2)", { cases }).out).toEqual(["3 after the first 2"]);
    expect(tableFrom("first_rows(cases, 99)", { cases }).out).toEqual([]);
    expect(tableFrom("first_rows(cases, 0)", { cases }).lines).toEqual([]);
  });

  test.each(["1.5", "-1"])("refuses %s rows", (number) => {
    expect(faultsOf(`first_rows(cases, ${number})`, { cases })).toEqual([
      "a number of rows is a whole number, 0 or more.\n" +
        `  found     ${number}\n` +
        "  expected  a number such as 20",
    ]);
  });
});
