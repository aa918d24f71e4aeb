import { describe, expect, it } from "vitest";
import { namesIn, rowSpansIn } from "../../src/formula/names-in.ts";
import { parse } from "../../src/formula/parse.ts";
import { vocabulary } from "./working.ts";

function names(text: string): string {
  const { certain, perhaps } = namesIn(parse(text).tree!, vocabulary);
  return `${[...certain].join(" ")} | ${[...perhaps].join(" ")}`;
}

describe("namesIn", () => {
  it.each([
    ["a + b * a", "a b | "],
    ["round(a, digits: b)", "a b | "],
    ["how_often.rate", "how_often | "],
    ['rates_of(t, by: sector, ending: e, within: w) + "no"', "t e w | sector"],
    ["rates_of(t, sector)", "t | sector"],
    ["rates_of(t, by: a + round(b)) + b", "t b | a b"],
    ["summed_up(t, median(age), oldest: max(age), by: s)", "t | age s"],
    ["rates_of(rates_of(t, by: a), by: b)", "t | a b"],
    ["how_often.at(w)", "how_often | w"],
    ["unknown(a, b: c)", " | a c"],
    ["if a then b else [c, d between e and f]", "a b c d e f | "],
    ["a is one of b and not c is known", "a b c | "],
    ['known(1) + 3 days + "x"', " | "],
  ])("%s mentions %s", (text, expected) => {
    expect(names(text)).toBe(expected);
  });
});

describe("rowSpansIn", () => {
  it("gives the outermost arguments over rows", () => {
    const text = "rates_of(t, by: f(a, b) + 1) * rates_of(u, c).eyes + how_often.at(w)";
    const spans = rowSpansIn(parse(text).tree!, vocabulary);
    expect(spans.map(({ start, end }) => text.slice(start, end))).toEqual([
      "f(a, b) + 1",
      "c",
      "w",
    ]);
  });
});
