import { describe, expect, test } from "vitest";
import type { CellState } from "../../src/recalculation/cell-state.ts";
import { createSheet, type Sheet } from "../../src/recalculation/sheet.ts";
import { asNumber, cellsOf, shown, words } from "./words.ts";

async function sheetOf(text: string): Promise<Sheet> {
  const sheet = createSheet(words);
  sheet.setCells(cellsOf(text));
  await sheet.settled();
  return sheet;
}

async function becomes(sheet: Sheet, text: string): Promise<void> {
  sheet.setCells(cellsOf(text));
  await sheet.settled();
}

function all(sheet: Sheet): string[] {
  return sheet.names().map((name) => `${name}: ${shown(sheet, name)}`);
}

function counts(sheet: Sheet): number[] {
  return sheet.names().map((name) => sheet.recalculations(name));
}

function problemsOf(state: CellState) {
  return state.status === "at fault" ? state.problems : [];
}

describe("cells", () => {
  test("are worked out in the order of what feeds them, not of the page", async () => {
    const sheet = await sheetOf("c = a + b; a = 1; b = a + 1");
    expect(all(sheet)).toEqual(["c: 3", "a: 1", "b: 2"]);
    expect(counts(sheet)).toEqual([1, 1, 1]);
  });

  test("are recalculated only where they depend on an edit", async () => {
    const sheet = await sheetOf("a = 1; b = 10; c = a + b; d = b + 1; e = c + d");
    await becomes(sheet, "a = 2; b = 10; c = a + b; d = b + 1; e = c + d");
    expect(all(sheet)).toEqual(["a: 2", "b: 10", "c: 12", "d: 11", "e: 23"]);
    expect(counts(sheet)).toEqual([2, 1, 2, 1, 2]);
    expect(["a", "b", "c", "e"].map((name) => sheet.because(name))).toEqual([
      "its working was edited",
      "it is new on the sheet",
      "a changed",
      "c changed",
    ]);
  });

  test("stop what is behind them where their result is the same", async () => {
    const sheet = await sheetOf("a = 1; b = parity(a); c = b + 1; d = a + c");
    await becomes(sheet, "a = 3; b = parity(a); c = b + 1; d = a + c");
    expect(all(sheet)).toEqual(["a: 3", "b: 1", "c: 2", "d: 5"]);
    expect(counts(sheet)).toEqual([2, 2, 1, 2]);
    await becomes(sheet, "a = 1 + 2; b = parity(a); c = b + 1; d = a + c");
    expect(counts(sheet)).toEqual([3, 2, 1, 2]);
  });

  test("hand on a new thing even where it holds the same", async () => {
    const sheet = await sheetOf("a = 1; b = wrap(a); c = [b]");
    await becomes(sheet, "a = 2; b = wrap(a); c = [b]");
    expect(counts(sheet)).toEqual([2, 2, 2]);
  });

  test("compare lists and texts by what they hold", async () => {
    const sheet = await sheetOf('a = 1; b = if a > 0 then [1, "x", 90 days] else []; c = [b, b]');
    await becomes(sheet, 'a = 2; b = if a > 0 then [1, "x", 90 days] else []; c = [b, b]');
    expect(counts(sheet)).toEqual([2, 2, 1]);
  });

  test("say what several changes at once were", async () => {
    const sheet = await sheetOf("a = 1; b = 2; c = a + b");
    await becomes(sheet, "a = 3; b = 4; c = a + b");
    expect(sheet.because("c")).toBe("a and b changed");
    expect(sheet.recalculations("c")).toBe(2);
  });

  test("that change twice before anything is worked out are worked out once", async () => {
    const sheet = await sheetOf("a = 1; b = a");
    sheet.setCells(cellsOf("a = 2; b = a"));
    sheet.setCells(cellsOf("a = 3; b = a"));
    await sheet.settled();
    expect(all(sheet)).toEqual(["a: 3", "b: 3"]);
    expect(counts(sheet)).toEqual([2, 2]);
  });

  test("may have names that objects or the runtime use for themselves", async () => {
    const text = "__proto__ = 1; constructor = __proto__ + 1; invalidation = constructor + 1";
    const sheet = await sheetOf(
      `${text}; then = invalidation; window = visibility; visibility = 5`,
    );
    expect(all(sheet)).toEqual([
      "__proto__: 1",
      "constructor: 2",
      "invalidation: 3",
      "then: 3",
      "window: 5",
      "visibility: 5",
    ]);
  });

  test("cannot see what the program calls its own", async () => {
    const sheet = await sheetOf("a = globalThis; b = name; c = invalidation");
    expect(all(sheet)).toEqual([
      "a: fault: unknown-name",
      "b: fault: unknown-name",
      "c: fault: unknown-name",
    ]);
  });
});

describe("names", () => {
  test("that appear and go again are followed", async () => {
    const sheet = await sheetOf("a = b + 1");
    expect(all(sheet)).toEqual(["a: fault: unknown-name"]);
    await becomes(sheet, "a = b + 1; b = 1");
    expect(all(sheet)).toEqual(["a: 2", "b: 1"]);
    expect(sheet.because("a")).toBe("b was added");
    await becomes(sheet, "a = b + 1");
    expect(all(sheet)).toEqual(["a: fault: unknown-name"]);
    expect(sheet.because("a")).toBe("b was removed");
  });

  test("that are unknown are told once, with the nearest that is known", async () => {
    const sheet = await sheetOf("failure_rate = 1; a = failure_rat + 1");
    expect(problemsOf(sheet.state("a"))).toMatchObject([
      {
        code: "unknown-name",
        place: { cell: "a", span: { start: 0, end: 11 } },
        replacement: "failure_rate",
      },
    ]);
  });

  test("feed and are fed", async () => {
    const sheet = await sheetOf("a = 1; b = a + 1; c = a + b");
    expect(sheet.feeds("a")).toEqual({ from: [], to: ["b", "c"] });
    expect(sheet.feeds("c")).toEqual({ from: ["a", "b"], to: [] });
    expect(() => sheet.state("nothing")).toThrow("no cell named nothing");
  });
});

describe("inputs", () => {
  test("are waited for by all that they feed, at any distance", async () => {
    const sheet = await sheetOf("a = count_rows(cases); b = a + 1; c = 1");
    expect(all(sheet)).toEqual(["a: waits for cases", "b: waits for cases", "c: 1"]);
    sheet.setInput("cases", asNumber(1), "cases were opened");
    await sheet.settled();
    expect(all(sheet)).toEqual(["a: 10", "b: 11", "c: 1"]);
    expect(sheet.because("a")).toBe("cases were opened");
    expect(counts(sheet)).toEqual([1, 1, 1]);
    sheet.setInput("cases", asNumber(1));
    await sheet.settled();
    expect(counts(sheet)).toEqual([1, 1, 1]);
    sheet.setInput("cases", undefined);
    await sheet.settled();
    expect(all(sheet)).toEqual(["a: waits for cases", "b: waits for cases", "c: 1"]);
  });

  test("keep their place where a cell takes their name", async () => {
    const sheet = await sheetOf("cases = 3; a = count_rows(cases)");
    expect(all(sheet)).toEqual(["cases: fault: input-hidden", "a: waits for cases"]);
    sheet.setInput("cases", asNumber(1));
    await sheet.settled();
    expect(all(sheet)).toEqual(["cases: fault: input-hidden", "a: 10"]);
    await becomes(sheet, "a = count_rows(cases)");
    expect(all(sheet)).toEqual(["a: 10"]);
  });
});

describe("faults", () => {
  test("stay in their cell; those behind wait for the root", async () => {
    const sheet = await sheetOf("a = 1 / 0; b = a + 1; c = b + 1; d = nothing; e = c + d + cases");
    expect(all(sheet)).toEqual([
      "a: fault: not-finite",
      "b: waits for a",
      "c: waits for a",
      "d: fault: unknown-name",
      "e: waits for a, d, cases",
    ]);
    expect(problemsOf(sheet.state("a"))[0]?.place.cell).toBe("a");
    await becomes(sheet, "a = 1 / 2; b = a + 1; c = b + 1; d = 1; e = c + d");
    expect(all(sheet)).toEqual(["a: 0.5", "b: 1.5", "c: 2.5", "d: 1", "e: 3.5"]);
  });

  test("of the program itself are told, and harm no other cell", async () => {
    const sheet = await sheetOf("a = fail_inside(); b = a; c = 1");
    expect(problemsOf(sheet.state("a"))).toMatchObject([
      { code: "internal-error", found: "a table is not a number", place: { cell: "a" } },
    ]);
    expect(all(sheet)).toEqual(["a: fault: internal-error", "b: waits for a", "c: 1"]);
  });

  test("known beforehand are handed in", async () => {
    const sheet = createSheet(words);
    const problem = { code: "name-twice", severity: "stop", place: {}, message: "Twice." } as const;
    sheet.setCells([
      { name: "a", working: "1", problems: [problem] },
      { name: "b", working: "a" },
    ]);
    await sheet.settled();
    expect(all(sheet)).toEqual(["a: fault: name-twice", "b: waits for a"]);
  });
});

describe("cycles", () => {
  test("are told to the cells on them with the way round, and waited for by the others", async () => {
    const sheet = await sheetOf("a = c + 1; b = a + 1; c = b + 1; d = c; e = e; f = 1");
    expect(all(sheet)).toEqual([
      "a: fault: cycle",
      "b: fault: cycle",
      "c: fault: cycle",
      "d: waits for c",
      "e: fault: cycle",
      "f: 1",
    ]);
    const [problem] = problemsOf(sheet.state("b"));
    expect(problem?.found).toBe("b \u2192 a \u2192 c \u2192 b");
    expect(problem?.message).toBe("`b` needs its own value, by way of a, c.");
    expect(problem?.place).toEqual({ cell: "b", span: { start: 0, end: 1 } });
    expect(problemsOf(sheet.state("e"))[0]?.found).toBe("e \u2192 e");
    await becomes(sheet, "a = 1; b = a + 1; c = b + 1; d = c; e = 2; f = 1");
    expect(all(sheet)).toEqual(["a: 1", "b: 2", "c: 3", "d: 3", "e: 2", "f: 1"]);
  });
});

describe("names in arguments over rows", () => {
  test("are cells where no column has the name", async () => {
    const sheet = await sheetOf("least = 7; a = count_rows(1, where: row >= least)");
    expect(all(sheet)).toEqual(["least: 7", "a: 3"]);
    expect(sheet.feeds("a").from).toEqual(["least"]);
    await becomes(sheet, "least = 9; a = count_rows(1, where: row >= least)");
    expect(all(sheet)).toEqual(["least: 9", "a: 1"]);
  });
  test("are columns first: a cell of the name changes nothing and is not waited for", async () => {
    const sheet = await sheetOf("row = 1 / 0; a = count_rows(1, where: row >= 8)");
    expect(all(sheet)).toEqual(["row: fault: not-finite", "a: 2"]);
    expect(sheet.feeds("a").from).toEqual([]);
    await becomes(sheet, "row = 5; a = count_rows(1, where: row >= 8)");
    expect(counts(sheet)).toEqual([2, 1]);
  });
  test("may be the name of the cell itself", async () => {
    const sheet = await sheetOf("row = count_rows(1, where: row >= 8)");
    expect(all(sheet)).toEqual(["row: 2"]);
  });
  test("that are no column and lead back to the cell are a cycle", async () => {
    const sheet = await sheetOf("a = b; b = count_rows(1, where: row >= a)");
    expect(all(sheet)).toEqual(["a: waits for b", "b: fault: cycle"]);
    expect(problemsOf(sheet.state("b"))[0]?.found).toBe("b \u2192 a \u2192 b");
  });
  test("that are at fault are waited for", async () => {
    const sheet = await sheetOf("least = nothing; a = count_rows(1, where: row >= least)");
    expect(all(sheet)).toEqual(["least: fault: unknown-name", "a: waits for least"]);
  });
});

describe("listening", () => {
  test("hears every state, and never an old value as if it were current", async () => {
    const sheet = await sheetOf("a = 1; b = parity(a); c = b");
    const heard: string[] = [];
    const end = sheet.observe((name) => heard.push(`${name}: ${shown(sheet, name)}`));
    sheet.setCells(cellsOf("a = 3; b = parity(a); c = b"));
    expect(shown(sheet, "c")).toBe("recalculating");
    await sheet.settled();
    expect(heard).toEqual([
      "a: recalculating",
      "b: recalculating",
      "c: recalculating",
      "a: 3",
      "b: 1",
      "c: 1",
    ]);
    end();
    await becomes(sheet, "a = 4; b = parity(a); c = b");
    expect(heard).toHaveLength(6);
  });

  test("while an edit comes in the middle of the work, hears nothing of the old one behind it", async () => {
    for (let turns = 0; turns < 40; turns++) {
      const sheet = await sheetOf("a = 1; b = a; c = b");
      sheet.setCells(cellsOf("a = 2; b = a; c = b"));
      for (let turn = 0; turn < turns; turn++) await Promise.resolve();
      const heard: string[] = [];
      sheet.observe((name) => heard.push(`${name}: ${shown(sheet, name)}`));
      sheet.setCells(cellsOf("a = 3; b = a; c = b"));
      await sheet.settled();
      expect([turns, ...heard.slice(3)]).toEqual([turns, "a: 3", "b: 3", "c: 3"]);
    }
  });

  test("that throws is told by settled, and does not stop the sheet", async () => {
    const sheet = await sheetOf("a = 1");
    const end = sheet.observe(() => {
      throw new Error("a listener failed");
    });
    sheet.setCells(cellsOf("a = 2"));
    await expect(sheet.settled()).rejects.toThrow("a listener failed");
    end();
    await sheet.settled();
    expect(all(sheet)).toEqual(["a: 2"]);
  });

  test("may edit in turn", async () => {
    const sheet = await sheetOf("a = 1; b = a");
    sheet.observe((name) => {
      if (name === "a" && shown(sheet, "a") === "2") sheet.setCells(cellsOf("a = 3; b = a"));
    });
    await becomes(sheet, "a = 2; b = a");
    expect(all(sheet)).toEqual(["a: 3", "b: 3"]);
  });

  test("ends with the sheet, which waits for nothing any more", async () => {
    const sheet = await sheetOf("a = 1");
    const heard: string[] = [];
    sheet.observe((name) => heard.push(name));
    sheet.setCells(cellsOf("a = 2"));
    sheet.dispose();
    await sheet.settled();
    await new Promise((resolve) => setTimeout(resolve, 5));
    expect(heard).toEqual(["a"]);
  });
});
