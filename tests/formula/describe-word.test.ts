import { expect, it } from "vitest";
import { describeWord } from "../../src/formula/describe-word.ts";
import { vocabulary } from "./working.ts";

it("describes a word with its arguments", () => {
  expect(describeWord(vocabulary.get("round")!)).toBe(
    [
      "round(number, digits: …)",
      "a number rounded to so many decimals, halves away from zero",
      "",
      "  number  the number to round (a number)",
      "  digits  decimals to keep, from -15 (whole quadrillions) to 15 (a number; left out: 0)",
      "",
      "gives a number",
    ].join("\n"),
  );
});

it("tells choices, row arguments, repeats and what is left out", () => {
  expect(describeWord(vocabulary.get("rates_of")!)).toBe(
    [
      "rates_of(table, by: …, ending: …, within: …)",
      "the rates of a table",
      "",
      "  table   the table (`table`)",
      "  by      the groups (worked out for every row; may be left out)",
      '  ending  what counts as an ending (a text; one of "closed", "open", "left under oil"; left out: "closed")',
      "  within  the time to look at (a length of time; may be left out)",
      "",
      "gives `rates`",
    ].join("\n"),
  );
  expect(describeWord(vocabulary.get("min")!)).toMatch(
    /^min\(of, …\)[\s\S]*as many as wanted[\s\S]*gives the kind given$/,
  );
  expect(describeWord(vocabulary.get("refuses")!)).toBe(
    "refuses()\nalways has a problem\n\ngives a number",
  );
});
