import { describe, expect, test } from "vitest";
import { formatProblem } from "../../src/problem/format-problem.ts";
import { createSheet } from "../../src/recalculation/sheet.ts";
import { cellsOf, words } from "./words.ts";

/** Everything that is said of each cell at fault. */
async function messages(text: string): Promise<string[]> {
  const sheet = createSheet(words);
  sheet.setCells(cellsOf(text));
  await sheet.settled();
  return sheet.names().flatMap((name) => {
    const state = sheet.state(name);
    return state.status === "at fault" ? state.problems.map(formatProblem) : [];
  });
}

describe("what the sheet itself finds wrong, with the whole of its message", () => {
  test("a cycle", async () => {
    expect(await messages("a = c; b = a; c = b + 1")).toContain(
      [
        "cell a: `a` needs its own value, by way of c, b.",
        "  found     a \u2192 c \u2192 b \u2192 a",
        "  expected  cells that can be worked out one after another",
        "  remedy    take the next name out of the working of one of these cells",
      ].join("\n"),
    );
  });
  test("a cell that needs itself", async () => {
    expect(await messages("a = a + 1")).toEqual([
      [
        "cell a: `a` needs its own value.",
        "  found     a \u2192 a",
        "  expected  cells that can be worked out one after another",
        "  remedy    take the name out of its own working",
      ].join("\n"),
    ]);
  });
  test("a cell named like the opened file", async () => {
    expect(await messages("cases = 1")).toEqual([
      [
        "cell cases: `cases` is what the opened file is called, so no cell can have this name.",
        "  found     cases",
        "  remedy    give the cell another name",
      ].join("\n"),
    ]);
  });
  test("a fault of the program", async () => {
    expect(await messages("a = fail_inside()")).toEqual([
      [
        "cell a: Holdfast failed while it worked this cell out: a fault of the program, not of yours.",
        "  found     a table is not a number",
        "  remedy    report it with this message; the other cells are not affected",
      ].join("\n"),
    ]);
  });
});
