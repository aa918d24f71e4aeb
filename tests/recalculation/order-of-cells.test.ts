import { describe, expect, test } from "vitest";
import {
  type CellNames,
  orderOfCells,
  staleAfter,
} from "../../src/recalculation/order-of-cells.ts";

/** "c: a b (d)": the cell c mentions a and b, and d in an argument over rows. */
function cells(...texts: readonly string[]): CellNames[] {
  return texts.map((text) => {
    const [name = "", rest = ""] = text.split(":");
    const mentioned = rest
      .trim()
      .split(/\s+/)
      .filter((each) => each !== "");
    return {
      name,
      certain: new Set(mentioned.filter((each) => !each.startsWith("("))),
      perhaps: new Set(
        mentioned.filter((each) => each.startsWith("(")).map((each) => each.slice(1, -1)),
      ),
    };
  });
}

describe("the order of cells", () => {
  test("puts each behind what feeds it", () => {
    expect(orderOfCells(cells("c: a b", "b: a", "a:", "d: cases"), ["cases"]).order).toEqual([
      "a",
      "d",
      "b",
      "c",
    ]);
  });
  test("names cells on a cycle with the shortest way round, and only them", () => {
    const order = orderOfCells(cells("a: b c", "b: c", "c: a", "d: a", "e: e"), []);
    expect([...order.cycles]).toEqual([
      ["a", ["a", "c", "a"]],
      ["b", ["b", "c", "a", "b"]],
      ["c", ["c", "a", "c"]],
      ["e", ["e", "e"]],
    ]);
  });
  test("takes a name over rows that would close a cycle for a column", () => {
    const order = orderOfCells(cells("a: b", "b: (a) (c)", "c:"), []);
    expect(order.cycles.size).toBe(0);
    expect(order.feeds.get("b")?.perhaps).toEqual(["c"]);
    expect([...order.feeds.get("b")!.closing]).toEqual([["a", ["b", "a", "b"]]]);
  });
  test("tells unknown names with the nearest known one", () => {
    const order = orderOfCells(cells("window:", "a: windw zzzzzz (anything)"), ["cases"]);
    expect([...order.unknown]).toEqual([
      ["a", [{ name: "windw", nearest: "window" }, { name: "zzzzzz" }]],
    ]);
  });
  test("manages a chain of thousands", () => {
    const chain = Array.from({ length: 5000 }, (_, at) =>
      at === 0 ? "c0:" : `c${at}: c${at - 1}`,
    );
    const { order, cycles } = orderOfCells(cells(...chain.toReversed()), []);
    expect(order[0]).toBe("c0");
    expect(order.at(-1)).toBe("c4999");
    expect(cycles.size).toBe(0);
  });
});

describe("what is stale after a change", () => {
  test("is everything that depends on it, and nothing else", () => {
    const from = new Map([
      ["a", []],
      ["b", ["a"]],
      ["c", ["b", "d"]],
      ["d", []],
      ["e", ["d"]],
    ]);
    expect([...staleAfter(from, ["a"])].sort()).toEqual(["a", "b", "c"]);
    expect([...staleAfter(from, ["d", "e"])].sort()).toEqual(["c", "d", "e"]);
  });
});
