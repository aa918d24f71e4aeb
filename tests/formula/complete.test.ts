import { describe, expect, it } from "vitest";
import { completionsAt } from "../../src/formula/complete.ts";
import { cells, vocabulary } from "./working.ts";

const nameable = {
  vocabulary,
  cells: cells.keys(),
  columns: [{ name: "sector", meaning: "where it lies" }],
  parts: (cell: string) =>
    cell === "how_often" ? [{ name: "rate", meaning: "the share that failed" }] : [],
};

/** Completions at the bar in the text, of some kinds: `kind:apply`, and what they replace. */
function at(marked: string, kinds = "argument choice part column"): string {
  const offset = marked.indexOf("|");
  const text = marked.replace("|", "");
  const { from, to, options } = completionsAt(text, offset, { ...nameable, cells: cells.keys() });
  const shown = options
    .filter(({ kind }) => kinds.includes(kind))
    .map(({ kind, apply }) => `${kind}:${apply}`);
  return `[${text.slice(from, to)}] ${shown.join(" ")}`.trim();
}

describe("completionsAt", () => {
  it.each([
    ["rates_of(|", "[] argument:table:  argument:by:  argument:ending:  argument:within:"],
    ["rates_of(cases, |)", "[] column:sector"],
    ["rates_of(cases, by: |)", "[] column:sector"],
    ["rates_of(cases, by: sec|tor)", "[sector] column:sector"],
    ["rates_of(cases, by: round(age + |", "[] column:sector"],
    ["rates_of(cases, within: |", "[]"],
    ["rates_of(cases, ending: |", '[] choice:"closed" choice:"open" choice:"left under oil"'],
    ['rates_of(cases, ending: "cl|', '["cl] choice:"closed" choice:"open" choice:"left under oil"'],
    [
      'rates_of(cases, ending: "cl|osed")',
      '["closed"] choice:"closed" choice:"open" choice:"left under oil"',
    ],
    [
      'rates_of(cases, ending: "cl|)',
      '["cl] choice:"closed" choice:"open" choice:"left under oil"',
    ],
    ["how_often.|", "[] part:rate"],
    ["1 - how_often.ra|", "[ra] part:rate"],
    ["nothing.|", "[]"],
    ["how_often.rate.|", "[]"],
    ["3 |", "[]"],
    ["x |", "[]"],
  ])("at %s offers %s", (marked, expected) => {
    const shown = at(marked).replace(/argument:by: {2}.*column:sector$/, "column:sector");
    expect(shown.replaceAll(/ +/g, " ")).toBe(expected.replaceAll(/ +/g, " "));
  });

  it("offers cells, then words to call, with their brackets where they have none yet", () => {
    expect(at("ro|", "cell word")).toMatch(/^\[ro\] cell:x .* word:round\(/);
    expect(at("ro|(3)", "word")).toMatch(/ word:round /);
    expect(at("|", "cell word")).toMatch(/cell:how_often .*word:round\(/);
  });

  it("offers no columns outside row arguments", () => {
    expect(at("rates_of(|", "column")).toBe("[]");
    expect(at("rates_of(cases, by: sector) + |", "column")).toBe("[]");
  });

  it("offers only arguments that are not given yet", () => {
    expect(at("rates_of(cases, by: sector, |)", "argument")).toBe(
      "[] argument:ending:  argument:within:",
    );
    expect(at("rates_of(cases, |: sector)", "argument")).toBe(
      "[] argument:by argument:ending argument:within",
    );
  });

  it("says what each means", () => {
    const { options } = completionsAt("rou", 3, { ...nameable, cells: [] });
    expect(options.find(({ label }) => label === "round")).toEqual({
      label: "round",
      kind: "word",
      meaning: "a number rounded to so many decimals, halves away from zero",
      apply: "round(",
    });
  });
});
