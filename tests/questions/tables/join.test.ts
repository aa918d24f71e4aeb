import { describe, expect, test } from "vitest";
import { ask } from "../ask.ts";
import { casesOfColumns, faultsOf, reference, tableFrom } from "./tables-of.ts";

const cases = casesOfColumns({
  k: { kind: "text", values: ["a", "b", "b", null, "d"] },
  x: { kind: "number", values: [1, 2, 3, 4, 5] },
});
const other = casesOfColumns({
  k: { kind: "text", values: ["b", "c", "a", null] },
  y: { kind: "number", values: [1, 2, 3, 4] },
  x: { kind: "number", values: [10, 20, 30, 40] },
});
const cells = { cases, other };

describe("join", () => {
  test("matches as R's merge does; a missing key matches nothing", () => {
    const joined = tableFrom('join(cases, other, on: k, rows: "matched only")', cells);
    expect(joined.column("x")).toEqual(reference.merge.x);
    expect(joined.column("y")).toEqual(reference.merge.y);
    expect(joined.column("x_2")).toEqual([30, 10, 10]);
    expect(joined.out).toEqual([
      "2 no row of the other table with the same k",
      "2 in the other table, no row of the first with the same k",
    ]);
  });

  test("rows of the first table stay unless asked otherwise, with what is added missing", () => {
    const joined = tableFrom("join(cases, other, on: k)", cells);
    expect(joined.column("k")).toEqual(["a", "b", "b", null, "d"]);
    expect(joined.column("y")).toEqual([3, 1, 1, null, null]);
    expect(joined.lines).toEqual([[2, 4], [3, 2], [4, 2], [5], [6]]);
    expect(joined.remarks.map(({ code }) => code)).toEqual(["rows-without-match"]);
    expect(ask("count_by(join(cases, other, on: k), by: y)", cells).cautions).toContain(
      "rows-without-match",
    );
  });

  test.each(["all of the first", "matched only"])("law: counts add up (%s)", (rows) => {
    const joined = tableFrom(`join(cases, other, on: k, rows: "${rows}")`, cells);
    const [matched, alone, otherAlone] = ["matched", "unmatched", "unmatched_other"].map(
      (name) => joined.part(name) ?? Number.NaN,
    );
    expect(matched! + alone!).toBe(5);
    expect(otherAlone).toBe(2);
    expect(joined.part("rows")).toBe(rows === "matched only" ? matched : 5);
  });

  test("a row with several matches stands once for each, and it is said", () => {
    const turned = tableFrom("join(other, cases, on: k)", cells);
    expect(turned.column("k")).toEqual(["b", "b", "c", "a", null]);
    expect(turned.remarks.map(({ code }) => code)).toEqual(["rows-without-match", "rows-repeated"]);
  });

  test("several keys must all be the same", () => {
    const joined = tableFrom('join(cases, cases, k, x, rows: "matched only")', cells);
    expect(joined.column("x")).toEqual([1, 2, 3, 5]);
  });

  test("many to many is refused, with the key", () => {
    expect(faultsOf("join(cases, cases, on: k)", cells)).toEqual([
      "k comes more than once in both tables, so that it is not clear which rows belong together.\n" +
        "  found     b\n" +
        "  expected  a key that comes once in one of the tables\n" +
        "  remedy    add a column to the key, or keep one row of each in one table first",
    ]);
  });

  test("keys of different kinds never match, and are refused", () => {
    const days = casesOfColumns({ k: { kind: "day", values: [1] } });
    expect(faultsOf("join(cases, days, on: k)", { cases, days })[0]).toContain(
      "k is a text in the first table and a day in the other",
    );
    expect(faultsOf("join(cases, other, on: y)", cells)[0]).toContain("y");
  });
});
