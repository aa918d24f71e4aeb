import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { check } from "../../src/formula/check.ts";
import { completionsAt } from "../../src/formula/complete.ts";
import { evaluate } from "../../src/formula/evaluate.ts";
import { format, formatWorking } from "../../src/formula/format.ts";
import { namesIn } from "../../src/formula/names-in.ts";
import { parse } from "../../src/formula/parse.ts";
import { renameIn } from "../../src/formula/rename-in.ts";
import type { Value } from "../../src/formula/value.ts";
import type { RowColumns } from "../../src/formula/vocabulary.ts";
import type { Problem } from "../../src/problem/problem.ts";
import { randomExpression } from "./random-expression.ts";
import { randomTree } from "./random-tree.ts";
import { cells, outcomeOf, vocabulary } from "./working.ts";

const scope = { vocabulary, cell: (name: string) => cells.get(name) };
const surroundings = { vocabulary, cells: new Set(cells.keys()) };

/** Everything that can be done with a text, in the order in which the sheet does it. */
function useAll(text: string): void {
  const { tree, problems } = parse(text);
  expectProblems(problems, text);
  expect(tree === null && problems.length === 0).toBe(false);
  if (tree === null) return;
  namesIn(tree, vocabulary);
  expectProblems(check(tree, surroundings), text);
  const outcome = evaluate(tree, scope);
  if (outcome.ok) expectPlain(outcome.value);
  else expectProblems(outcome.problems, text);
}

function expectProblems(problems: readonly Problem[], text: string): void {
  for (const { place, message, code } of problems) {
    const { start, end } = place.span ?? { start: -1, end: -1 };
    if (!(start >= 0 && start <= end && end <= text.length)) {
      throw new Error(`${code} lies outside of ${JSON.stringify(text)}: ${start} to ${end}`);
    }
    if (message === "") throw new Error(`${code} says nothing`);
  }
}

const plain = new Set(["missing", "number", "truth", "text", "day", "duration", "list", "thing"]);

/** A value of the language and nothing of the host: no function, no object of another making. */
function expectPlain(value: Value): void {
  if (!plain.has(value.kind)) throw new Error(`a value of kind ${String(value.kind)}`);
  if (value.kind === "thing" && !(value.of === "rates" || value.of === "table")) {
    throw new Error(`a thing of ${value.of}`);
  }
  if (value.kind === "list") value.items.forEach(expectPlain);
  if (value.kind === "number" && !Number.isFinite(value.number)) throw new Error("not finite");
}

const fragments = [
  ..."+-*/^=<>()[],.:;\"'\\ \n\t%&|!?#@{}$€é手\u0301\ud83d\ude00\ud800",
  ..."0 1 2.5 85% 90 days 2025-03-31 2025-02-31 31/03/2025 1,000 1e999 x m name cases".split(" "),
  ..."and or not is one of between if then else true false missing known in null".split(" "),
  ..."round( sum([ rates_of(cases, by: within: ending: summed_up( known( how_often.".split(" "),
  ..."constructor __proto__ prototype toString valueOf hasOwnProperty process".split(" "),
  ..."globalThis window self document eval Function require import this arguments".split(" "),
  ...["//", "/*", "*/", '"text"', "“", "”", "‘x’", "«", "»", "≠", "≤", "≥", "×", "−", "\u2028"],
];

const noise = fc.array(fc.constantFrom(...fragments), { maxLength: 14 }).map((all) => all.join(""));
const spaced = fc
  .array(fc.constantFrom(...fragments), { maxLength: 10 })
  .map((all) => all.join(" "));

/** A working with one piece cut out, doubled, or replaced by something else. */
const mutated = fc
  .tuple(randomExpression, fc.nat(), fc.nat({ max: 6 }), fc.constantFrom("", ...fragments))
  .map(([text, place, length, piece]) => {
    const at = place % (text.length + 1);
    return text.slice(0, at) + piece + text.slice(at + length);
  });

describe("whatever is typed", () => {
  it("never throws, never hangs, and is worth a plain value or problems inside the text", () => {
    const seeds = { numRuns: 25_000, seed: 19700101 };
    fc.assert(fc.property(noise, useAll), seeds);
    fc.assert(fc.property(spaced, useAll), seeds);
    fc.assert(fc.property(mutated, useAll), { ...seeds, numRuns: 30_000 });
    fc.assert(fc.property(fc.string({ unit: "binary", maxLength: 30 }), useAll), {
      ...seeds,
      numRuns: 20_000,
    });
  });

  it("is worked out within its tree: any tree has an outcome", () => {
    fc.assert(
      fc.property(randomTree, (tree) => {
        const outcome = evaluate(tree, scope);
        if (outcome.ok) expectPlain(outcome.value);
        expectProblems(check(tree, surroundings), " ");
      }),
      { numRuns: 2000, seed: 3 },
    );
  });

  it("can be completed, renamed in and formatted", () => {
    fc.assert(
      fc.property(fc.oneof(noise, spaced, mutated), fc.nat({ max: 40 }), (text, offset) => {
        const at = Math.min(offset, text.length);
        const { from, to } = completionsAt(text, at, { vocabulary, cells: [] });
        expect(from <= at && at <= to && to <= text.length).toBe(true);
        expect(formatWorking(formatWorking(text))).toBe(formatWorking(text));
        expect(renameIn(text, "x", "x")).toBe(text);
      }),
      { numRuns: 4000, seed: 4 },
    );
  });

  it("takes a time that grows no faster than the text squared", () => {
    const hard = [
      ...[
        '"',
        "'",
        "“",
        "«",
        "/*",
        "[",
        "(",
        "-",
        "not ",
        "1,0",
        "1.",
        "a.",
        "a,",
        "\\",
        "x+",
        "if ",
      ],
      ...["f(x,", "a:", "2025-01-01-", "1e9", "31/12/2024/", "é\u0301", "\ud800"],
    ];
    for (const piece of hard) {
      const text = piece.repeat(Math.floor(10_000 / piece.length));
      const before = performance.now();
      parse(text);
      formatWorking(text);
      completionsAt(text, text.length, { vocabulary, cells: [] });
      expect(performance.now() - before).toBeLessThan(1000);
    }
  });
});

describe("nothing of the host can be reached", () => {
  const hostNames = [
    ...["constructor", "__proto__", "prototype", "toString", "valueOf", "hasOwnProperty"],
    ...["process", "globalThis", "window", "self", "document", "eval", "Function", "require"],
    ...["__defineGetter__", "then", "length", "call", "apply", "kind", "parts", "content", "of"],
  ];

  it.each(hostNames.filter((name) => name !== "then"))(
    "%s is no cell, word, part or argument",
    (name) => {
      const codes = (text: string) => {
        const outcome = outcomeOf(text);
        return outcome.ok ? ["reached"] : outcome.problems.map(({ code }) => code);
      };
      const isWord = vocabulary.has(name);
      expect(codes(name)).toEqual([isWord ? "word-not-called" : "unknown-name"]);
      if (!isWord) expect(codes(`${name}()`)).toEqual(["unknown-word"]);
      expect(codes(`how_often.${name}`)).toEqual(["unknown-part"]);
      expect(codes(`how_often.${name}()`)).toEqual(["unknown-part"]);
      expect(codes(`how_often.at.${name}`)).toEqual(["part-not-called"]);
      expect(codes(`x.${name}`)).toEqual(["no-parts"]);
      expect(codes(`[1].${name}`)).toEqual(["no-parts"]);
      expect(codes(`"a".${name}`)).toEqual(["no-parts"]);
      expect(codes(`round(1, ${name}: 1)`)).toEqual(["unknown-argument"]);
    },
  );

  it.each(hostNames.filter((name) => name !== "then"))("%s is no column", (name) => {
    const columns: RowColumns = { names: () => [], column: () => undefined };
    const { tree } = parse(`rates_of(cases, by: ${name})`);
    let seen: readonly Problem[] = [];
    const word = vocabulary.get("rates_of")!;
    const watching = new Map(vocabulary).set("rates_of", {
      ...word,
      call(given) {
        const bound = given.rows.get("by")?.over(columns);
        seen = bound?.ok === false ? bound.problems : [];
        return word.call(given);
      },
    });
    evaluate(tree!, { vocabulary: watching, cell: (cell) => cells.get(cell) });
    expect(seen.map(({ code }) => code)).toEqual([
      vocabulary.has(name) ? "word-not-called" : "unknown-name",
    ]);
  });

  it("writes names that objects know like any other", () => {
    for (const name of hostNames)
      expect(format(parse(`${name === "then" ? "x" : name} + 1`).tree!)).toMatch(/ \+ 1$/);
  });
});
