import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { format, formatWorking } from "../../src/formula/format.ts";
import { parse } from "../../src/formula/parse.ts";
import type { Node } from "../../src/formula/tree.ts";
import { randomExpression } from "./random-expression.ts";
import { randomTree, withoutSpans } from "./random-tree.ts";

describe("format", () => {
  it("writes what parses to the same tree", () => {
    fc.assert(
      fc.property(randomTree, (tree) => {
        const parsed = parse(format(tree));
        expect(parsed.problems).toEqual([]);
        expect(parsed.tree && withoutSpans(parsed.tree)).toEqual(withoutSpans(tree));
      }),
      { numRuns: 3000, seed: 20250331 },
    );
  });

  it("does so where lines break", () => {
    let broken = 0;
    fc.assert(
      fc.property(randomTree, (tree) => {
        const long = withLongNames(tree);
        const text = format(long);
        broken += text.includes("\n") ? 1 : 0;
        expect(withoutSpans(parse(text).tree!)).toEqual(withoutSpans(long));
        expect(formatWorking(text)).toBe(text);
      }),
      { numRuns: 1500, seed: 8 },
    );
    expect(broken).toBeGreaterThan(300);
  });

  it("does so in long chains of operators", () => {
    fc.assert(
      fc.property(randomExpression, (short) => {
        const { tree } = parse(short.replace(/\b[nktusdelc]\b/g, "$&_with_quite_a_long_name"));
        const text = format(tree!);
        expect(withoutSpans(parse(text).tree!)).toEqual(withoutSpans(tree!));
        expect(formatWorking(text)).toBe(text);
      }),
      { numRuns: 1500, seed: 9 },
    );
  });

  it("writes the same text when it formats its own text", () => {
    fc.assert(
      fc.property(randomTree, (tree) => {
        const text = format(tree);
        expect(formatWorking(text)).toBe(text);
      }),
      { numRuns: 1000, seed: 7 },
    );
  });

  it.each([
    ["1+2*3", "1 + 2 * 3"],
    ["(1+2)*3", "(1 + 2) * 3"],
    ["((1*2))+3", "1 * 2 + 3"],
    ["1-(2-3)", "1 - (2 - 3)"],
    ["(1-2)-3", "1 - 2 - 3"],
    ["(-2)^2", "(-2)^2"],
    ["-(2^2)", "-2^2"],
    ["2^(3^2)", "2^3^2"],
    ["(2^3)^2", "(2^3)^2"],
    ["2 ^ -1", "2^-1"],
    ["not (a and b)", "not (a and b)"],
    ["not (a=b)", "not a = b"],
    ["(not a)=b", "(not a) = b"],
    ["a and (b or c)", "a and (b or c)"],
    ["(a and b) or c", "a and b or c"],
    ["a ≠ b", "a != b"],
    ["a ≤ b", "a <= b"],
    ["a ≥ b", "a >= b"],
    ["x is not missing", "x is known"],
    ["x is not known", "x is missing"],
    ["x is between 1 and 2", "x between 1 and 2"],
    ["x is not between 1 and 2", "x is not between 1 and 2"],
    ['t is not one of ["a","b"]', 't is not one of ["a", "b"]'],
    ["85 %", "85%"],
    ["0.50", "0.50"],
    ["90days", "90 days"],
    ["5   month", "5 month"],
    ["f( a,by:b )", "f(a, by: b)"],
    ["a . b . c", "a.b.c"],
    ["when.at( 90 days )", "when.at(90 days)"],
    ["(if a then b else c)+1", "(if a then b else c) + 1"],
    ["if a\n then b\n else c", "if a then b else c"],
    ['"say \\"no\\" \\\\ yes"', '"say \\"no\\" \\\\ yes"'],
  ])("writes %s as %s", (text, expected) => {
    expect(formatWorking(text)).toBe(expected);
  });

  it("leaves a text that cannot be read as it is", () => {
    expect(formatWorking("f(a,,  b")).toBe("f(a,,  b");
    expect(formatWorking("a  ==  b")).toBe("a  ==  b");
  });

  it("breaks a long call over lines, two spaces further in", () => {
    const text =
      'failure_rate(index_eyes(cases, failure: "redetachment", within: 12 months), by: technique, within: 90 days)';
    expect(formatWorking(text)).toBe(
      [
        "failure_rate(",
        '  index_eyes(cases, failure: "redetachment", within: 12 months),',
        "  by: technique,",
        "  within: 90 days",
        ")",
      ].join("\n"),
    );
  });

  it("breaks long chains and conditions at their joints", () => {
    const part = "quite_a_long_name_of_a_cell = 12345";
    expect(formatWorking(`${part} and ${part} and ${part}`)).toBe(
      [part, `  and ${part}`, `  and ${part}`].join("\n"),
    );
    expect(formatWorking(`if ${part} then ${part} else ${part}`)).toBe(
      [`if ${part}`, `  then ${part}`, `  else ${part}`].join("\n"),
    );
  });

  it("keeps to 100 columns where there are places to break", () => {
    const items = Array.from({ length: 40 }, (_, i) => `item_number_${i}`).join(", ");
    const lines = formatWorking(`f([${items}], x: g(${items}))`).split("\n");
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(100);
    expect(lines.length).toBeGreaterThan(40);
  });
});

/** The tree with names long enough that most operators do not fit on a line. */
function withLongNames(tree: Node): Node {
  return JSON.parse(JSON.stringify(tree), (key, value) =>
    key === "name" && typeof value === "string" ? `${value}_${"long".repeat(8)}` : value,
  );
}
