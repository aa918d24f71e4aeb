import { describe, expect, test } from "vitest";
import { casesOfColumns, published, reference, tableFrom } from "./tables-of.ts";

const cases = casesOfColumns({
  surgeon: { kind: "text", values: ["S10", "S2", null, "S2", "S1"] },
  grade: { kind: "code", order: ["low", "high"], values: ["high", "low", "high", "high", null] },
  done: { kind: "truth", values: [false, true, null, false, true] },
});

describe("sort_by", () => {
  test("numbers in texts by size, what is missing last whichever the order", () => {
    const up = tableFrom("sort_by(cases, surgeon)", { cases });
    expect(up.column("surgeon")).toEqual(["S1", "S2", "S2", "S10", null]);
    expect(up.lines).toEqual([[6], [3], [5], [2], [4]]);
    const down = tableFrom('sort_by(cases, surgeon, order: "descending")', { cases });
    expect(down.column("surgeon")).toEqual(["S10", "S2", "S2", "S1", null]);
    expect(down.lines).toEqual([[2], [3], [5], [6], [4]]);
  });

  test("codes by their list; ties by the next column", () => {
    const made = tableFrom("sort_by(cases, grade, surgeon)", { cases });
    expect(made.column("grade")).toEqual(["low", "high", "high", "high", null]);
    expect(made.column("surgeon")).toEqual(["S2", "S2", "S10", null, "S1"]);
    expect(tableFrom("sort_by(cases, done)", { cases }).column("done")).toEqual([
      ...[true, true, false, false],
      null,
    ]);
  });

  test("law: every row stays, once, with its line", () => {
    const births = { cases: published("birthwt") };
    const sorted = tableFrom('sort_by(cases, race, age, order: "descending")', births);
    expect(sorted.lines.flat().sort((a, b) => a - b)).toEqual(
      Array.from({ length: 189 }, (_, row) => row + 2),
    );
    expect(sorted.leftOut).toEqual([]);
  });

  test("the heaviest births are those that R puts first", () => {
    const births = { cases: published("birthwt") };
    const sorted = tableFrom('first_rows(sort_by(cases, bwt, order: "descending"), 5)', births);
    expect(sorted.lines.flat()).toEqual(reference.births.by_weight.map((row: number) => row + 1));
  });
});
