import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { format } from "../../src/formula/format.ts";
import { longestWorking, parse } from "../../src/formula/parse.ts";
import { mostLevels } from "../../src/formula/token-reader.ts";
import { tokenize } from "../../src/formula/tokenize.ts";
import { childrenOf, type Node } from "../../src/formula/tree.ts";
import { randomTree } from "./random-tree.ts";

/** The tree with every operator in brackets, so that its grouping can be read. */
function grouping(text: string): string {
  const { tree, problems } = parse(text);
  if (tree === null) return problems.map((problem) => problem.code).join(", ");
  return bracketed(tree);
}

function bracketed(node: Node): string {
  if (node.type === "binary") {
    return `(${bracketed(node.left)} ${node.operator} ${bracketed(node.right)})`;
  }
  if (node.type === "unary") return `(${node.operator} ${bracketed(node.operand)})`;
  if (node.type === "is") return `(${bracketed(node.operand)} is ${node.test})`;
  if (node.type === "between") {
    return `(${bracketed(node.operand)} between ${bracketed(node.low)} ${bracketed(node.high)})`;
  }
  return format(node);
}

describe("precedence", () => {
  // Common mathematical practice, no source: powers group from the right and bind tighter than a
  // sign before them; the rest groups from the left.
  it.each([
    ["-2^2", "(- (2 ^ 2))"],
    ["2^3^2", "(2 ^ (3 ^ 2))"],
    ["2^-1", "(2 ^ (- 1))"],
    ["2^-1*3", "((2 ^ (- 1)) * 3)"],
    ["-a*b", "((- a) * b)"],
    ["a-b-c", "((a - b) - c)"],
    ["a/b/c", "((a / b) / c)"],
    ["a-b+c", "((a - b) + c)"],
    ["a+b*c", "(a + (b * c))"],
    ["a*b+c", "((a * b) + c)"],
    ["a+b<c*d", "((a + b) < (c * d))"],
    ["not a = b", "(not (a = b))"],
    ["not a and b", "((not a) and b)"],
    ["a or b and c", "(a or (b and c))"],
    ["a and b or c and d", "((a and b) or (c and d))"],
    ["a is missing and b is known", "((a is missing) and (b is known))"],
    ["a + 1 is missing", "((a + 1) is missing)"],
    ["a between 1 and 2 and b", "((a between 1 2) and b)"],
    ["a between 1 + 1 and 2 * 2", "(a between (1 + 1) (2 * 2))"],
    ["not a between 1 and 2 or b", "((not (a between 1 2)) or b)"],
    ["- -a", "(- (- a))"],
    ["a - -b", "(a - (- b))"],
  ])("%s is %s", (text, expected) => {
    expect(grouping(text)).toBe(expected);
  });
});

describe("literals", () => {
  const literal = (text: string) => {
    const { tree, problems } = parse(text);
    expect(problems).toEqual([]);
    const { span: _, ...rest } = tree!;
    return rest;
  };

  it("reads numbers, exact to the last digit", () => {
    expect(literal("12.50")).toEqual({ type: "number", number: 12.5, written: "12.50" });
    expect(literal("1e-5")).toEqual({ type: "number", number: 1e-5, written: "1e-5" });
    expect(literal("33.3%")).toEqual({ type: "number", number: 0.333, written: "33.3%" });
    expect(literal("85 %")).toEqual({ type: "number", number: 0.85, written: "85%" });
  });

  it("reads lengths of time, singular and plural, with and without a space", () => {
    expect(literal("90 days")).toEqual({
      type: "duration",
      amount: 90,
      unit: "day",
      written: "90 days",
    });
    expect(literal("5 month")).toMatchObject({ amount: 5, unit: "month", written: "5 month" });
    expect(literal("1 weeks")).toMatchObject({ unit: "week" });
    expect(literal("2years")).toMatchObject({ unit: "year", written: "2 years" });
    expect(literal("1.5 years")).toMatchObject({ amount: 1.5, unit: "year" });
  });

  it("reads days as days, and spaced-out digits as sums", () => {
    expect(literal("1970-01-02")).toEqual({ type: "day", day: 1 });
    expect(literal("2024-02-29")).toMatchObject({ type: "day" });
    expect(grouping("2025 - 03 - 31")).toBe("((2025 - 03) - 31)");
  });

  it("reads texts with their escapes", () => {
    expect(literal('"a \\"b\\" \\\\ \\n\\t\\r"')).toEqual({
      type: "text",
      text: 'a "b" \\ \n\t\r',
    });
    expect(literal('""')).toEqual({ type: "text", text: "" });
  });

  it("reads names of every alphabet, the same however an accent was typed", () => {
    expect(literal("durée")).toEqual({ type: "name", name: "durée" });
    expect(literal("dure\u0301e")).toEqual({ type: "name", name: "durée" });
    expect(literal("_x1")).toEqual({ type: "name", name: "_x1" });
    expect(literal("手術日")).toEqual({ type: "name", name: "手術日" });
  });

  it("lets cells be called known, one, of and days", () => {
    expect(grouping("known + one + of + days")).toBe("(((known + one) + of) + days)");
    expect(grouping("known is known")).toBe("(known is known)");
  });
});

describe("line breaks", () => {
  it("mean no more than spaces", () => {
    expect(grouping("a\n  + b\r\n  + c")).toBe("((a + b) + c)");
    expect(grouping("f(\n  a,\n  by: b\n)")).toBe("f(a, by: b)");
  });
});

describe("limits", () => {
  it("refuses too many levels, and takes as many as it says", () => {
    const nested = (levels: number) => `${"(".repeat(levels)}1${")".repeat(levels)}`;
    expect(parse(nested(mostLevels - 1)).problems).toEqual([]);
    expect(parse(nested(mostLevels + 1)).problems.map(({ code }) => code)).toEqual(["too-deep"]);
    expect(parse(nested(4000)).problems.map(({ code }) => code)).toEqual(["too-deep"]);
  });

  it.each([
    ["a chain of sums", `1${"+1".repeat(4000)}`],
    ["a chain of powers", `1${"^1".repeat(4000)}`],
    ["signs", `${"-".repeat(9000)}1`],
    ["denials", `${"not ".repeat(2000)}a`],
    ["calls", "f(".repeat(4000)],
    ["lists", "[".repeat(9000)],
    ["parts", `a${".b".repeat(4000)}`],
    ["conditions", `${"if a then b else ".repeat(500)}c`],
  ])("refuses %s without end", (_, text) => {
    expect(parse(text).problems.map(({ code }) => code)).toEqual(["too-deep"]);
  });

  it("refuses a working that is too long without reading it", () => {
    const text = "1".repeat(longestWorking + 1);
    expect(parse(text)).toMatchObject({ tree: null, problems: [{ code: "working-too-long" }] });
    expect(parse(`"${"a".repeat(longestWorking - 2)}"`).problems).toEqual([]);
  });
});

describe("spans", () => {
  it("lie inside the text, and children inside their parents, in order", () => {
    fc.assert(
      fc.property(randomTree, (random) => {
        const text = format(random);
        expectNested(parse(text).tree!, { start: 0, end: text.length });
      }),
      { numRuns: 1000, seed: 11 },
    );
  });

  it("are exact", () => {
    const text = "f((a + b) * c, by: rate)";
    const { tree } = parse(text);
    const spans: string[] = [];
    const visit = (node: Node) => {
      spans.push(text.slice(node.span.start, node.span.end));
      childrenOf(node).forEach(visit);
    };
    visit(tree!);
    expect(spans).toEqual([text, "(a + b) * c", "a + b", "a", "b", "c", "rate"]);
  });

  it("of tokens cover the text in order, with nothing but space between", () => {
    const text = 'if a≥1.5 then "é" else -b .c';
    const { tokens } = tokenize(text);
    expect(tokens.map(({ span }) => text.slice(span.start, span.end))).toEqual([
      ...["if", "a", "≥", "1.5", "then", '"é"', "else", "-", "b", ".", "c", ""],
    ]);
  });
});

function expectNested(node: Node, outer: { start: number; end: number }): void {
  expect(node.span.start).toBeGreaterThanOrEqual(outer.start);
  expect(node.span.end).toBeLessThanOrEqual(outer.end);
  expect(node.span.end).toBeGreaterThan(node.span.start);
  let reached = node.span.start;
  for (const child of childrenOf(node)) {
    expect(child.span.start).toBeGreaterThanOrEqual(reached);
    reached = child.span.end;
    expectNested(child, node.span);
  }
}

describe("slips", () => {
  it.each([
    ["a == b", "a = b"],
    ["a && b", "a and b"],
    ["a || b", "a or b"],
    ["!a", "not a"],
    ["a <> b", "a != b"],
    ["a => b", "a >= b"],
    ["a ** b", "a^b"],
    ["a × b ÷ c − d", "a * b / c - d"],
    ["f(a; b)", "f(a, b)"],
    ["'a' = “b”", '"a" = "b"'],
    ["a AND b", "a and b"],
    ["2025-02-30", "2025-02-28"],
    ["2025-3-1", "2025-03-01"],
    [".5 + 1,000", "0.5 + 1000"],
  ])("%s is told, and read as %s", (text, meant) => {
    const { tree, problems } = parse(text);
    expect(problems.length).toBeGreaterThan(0);
    expect(tree && format(tree)).toBe(meant);
  });

  it("are mended by putting each replacement at its span", () => {
    for (const text of ["a == b && !c", "f('x'; 2025-02-30)", ".5 ** 2 × 1,000", "a OR b <> c"]) {
      const { problems, tree } = parse(text);
      const mended = problems.reduceRight((whole, { place, replacement }) => {
        expect(replacement).toBeTypeOf("string");
        return whole.slice(0, place.span?.start) + replacement + whole.slice(place.span?.end);
      }, text);
      expect(parse(mended).problems).toEqual([]);
      expect(format(parse(mended).tree!)).toBe(format(tree!));
    }
  });
});
