import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { format } from "../../src/formula/format.ts";
import { rowSpansIn } from "../../src/formula/names-in.ts";
import { parse } from "../../src/formula/parse.ts";
import { renameIn, renameOutside } from "../../src/formula/rename-in.ts";
import type { Argument, Node } from "../../src/formula/tree.ts";
import { randomTree, withoutSpans } from "./random-tree.ts";
import { vocabulary } from "./working.ts";

describe("renameIn", () => {
  it.each([
    ["a", "long"],
    ["a + b.a + a.b", "long + b.a + long.b"],
    ["a(a, a: a)", "a(long, a: long)"],
    ['"a" = a', '"a" = long'],
    ["aa + a_ + _a", "aa + a_ + _a"],
    ["f(\n  a ,  a:  a\n)", "f(\n  long ,  a:  long\n)"],
    ["(a)", "(long)"],
    ["a ==  a +", "long ==  long +"],
    ["f(a, 'a", "f(long, 'long"],
    ["x.a(a)", "x.a(long)"],
  ])("%s becomes %s", (text, expected) => {
    expect(renameIn(text, "a", "long")).toBe(expected);
  });

  it("leaves words of the language alone", () => {
    expect(renameIn("known is known and known is not known", "known", "k")).toBe(
      "k is known and k is not known",
    );
    expect(renameIn("one is one of of", "of", "o")).toBe("one is one of o");
    expect(renameIn("one is not one of of + one", "one", "o")).toBe("o is not one of of + o");
    expect(renameIn("3 days + days", "days", "d")).toBe("3 days + d");
  });

  it("finds a name however its accents were typed", () => {
    expect(renameIn("dure\u0301e + 1", "durée", "d")).toBe("d + 1");
  });

  it("does what renaming the tree does", () => {
    fc.assert(
      fc.property(randomTree, (tree) => {
        const renamed = parse(renameIn(format(tree), "x", "renamed")).tree;
        expect(renamed && withoutSpans(renamed)).toEqual(withoutSpans(renameTree(tree)));
      }),
      { numRuns: 1000, seed: 5 },
    );
  });

  it("back again gives the text as it was", () => {
    fc.assert(
      fc.property(fc.string(), randomTree, (noise, tree) => {
        const text = `${format(tree)} ${noise}`.replaceAll("unused", "");
        expect(renameIn(renameIn(text, "x", "unused"), "unused", "x")).toBe(text);
      }),
      { numRuns: 500, seed: 6 },
    );
  });
});

describe("renameOutside", () => {
  it("leaves the row arguments alone, where the name is a column", () => {
    const text = "rates_of(age, by: age + 1).rate + age";
    const leave = rowSpansIn(parse(text).tree!, vocabulary);
    expect(renameOutside(text, { from: "age", to: "limit" }, leave)).toBe(
      "rates_of(limit, by: age + 1).rate + limit",
    );
  });
});

function renameTree(node: Node): Node {
  return JSON.parse(JSON.stringify(node), (_, value: Node | Argument) =>
    value !== null && typeof value === "object" && "type" in value && value.type === "name"
      ? { ...value, name: value.name === "x" ? "renamed" : value.name }
      : value,
  );
}
