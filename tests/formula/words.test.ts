import { describe, expect, it } from "vitest";
import { generalWords } from "../../src/formula/words/general-words.ts";
import { vocabulary, work } from "./working.ts";

const worth = (rows: readonly (readonly [string, string])[]) =>
  it.each(rows)("%s is %s", (text, expected) => {
    expect(work(text)).toBe(expected);
  });

describe("words over numbers", () => {
  worth([
    ["round(2.5)", "3"],
    ["round(-2.5)", "-3"],
    ["round(2.4999)", "2"],
    ["round(2.675, digits: 2)", "2.68"],
    ["round(1.005, 2)", "1.01"],
    ["round(1234, digits: -2)", "1200"],
    ["round(1e-9, 3)", "0"],
    ["round(1e21, 2)", "1e+21"],
    ["round_up(2.1)", "3"],
    ["round_down(-2.1)", "-3"],
    ["abs(-3)", "3"],
    ["abs(-3 days)", "3 days"],
    ["sqrt(2) ^ 2 - 2 < 1e-15", "true"],
    ["exp(0)", "1"],
    ["ln(exp(1))", "1"],
    ["log10(1000)", "3"],
    ["remainder(7, 3)", "1"],
    ["remainder(-7, 3)", "2"],
    ["round(missing)", "missing"],
    ["round(2, digits: missing)", "missing"],
  ]);
});

describe("words over texts", () => {
  worth([
    ['lower("ÄBC")', '"äbc"'],
    ['upper("straße")', '"STRASSE"'],
    ['trim("  a b ")', '"a b"'],
    ['contains("horseshoe tear", "tear")', "true"],
    ['contains("tear", "Tear")', "false"],
    ['contains(["round hole", "dialysis"], "hole")', "false"],
    ['contains(["round hole", "dialysis"], "dialysis")', "true"],
    ['contains(["round hole", missing], "dialysis")', "missing"],
    ['contains(["round hole", missing], "round hole")', "true"],
    ['contains_any(["a", "b"], ["b", "c"])', "true"],
    ['contains_any(["a", "b"], ["c"])', "false"],
    ['contains_any(["a", missing], ["c"])', "missing"],
    ['contains_any(["a", missing], ["a"])', "true"],
    ['contains_any(["a"], [missing])', "missing"],
    ["contains_any([], [missing])", "false"],
    ["contains_any([missing], [])", "false"],
    ['starts_with("SF6", "SF")', "true"],
    ['ends_with("SF6", "6")', "true"],
    ['joined("a", "b")', '"a b"'],
    ['joined("a", "b", with: ", ")', '"a, b"'],
    ["day_as_text(2025-03-31)", '"2025-03-31"'],
    ["number_as_text(0.5)", '"0.5"'],
    ['number_from(" 12.5 ")', "12.5"],
    ['day_from_text("2025-03-31")', "2025-03-31"],
    ['length("aé手")', "3"],
  ]);
});

describe("words over days", () => {
  worth([
    ["year(2024-02-29)", "2024"],
    ["month(2024-02-29)", "2"],
    ["day_of(2024-02-29)", "29"],
    ["quarter(2024-03-31)", "1"],
    ["quarter(2024-10-01)", "4"],
    ["first_of_month(2024-02-29)", "2024-02-01"],
    ["first_of_year(2024-02-29)", "2024-01-01"],
    ["day_from(2024, 2, 29)", "2024-02-29"],
    ["days_between(2024-02-28, 2024-03-01)", "2 days"],
    ["days_between(2024-03-01, 2024-02-28)", "-2 days"],
    ["age_at(1950-06-15, 2020-06-14)", "69"],
    ["age_at(1950-06-15, 2020-06-15)", "70"],
    ["age_at(2000-02-29, 2001-02-28)", "0"],
    ["age_at(2000-02-29, 2001-03-01)", "1"],
    ["months_after(2024-01-31, 1)", "2024-02-29"],
    ["months_after(2024-01-31, -2)", "2023-11-30"],
    ["months_after(2024-12-31, 12)", "2025-12-31"],
    ["days_in(3 months)", "91"],
    ["weeks_in(91 days)", "13"],
    ["months_in(487 days) = 16", "true"],
    ["years_in(1461 days)", "4"],
  ]);

  // Weekdays of known days: the first Moon landing was on a Sunday, 1970-01-01 on a Thursday.
  worth([
    ["weekday(1969-07-20)", "7"],
    ["weekday(1970-01-01)", "4"],
    ["weekday(2000-01-01)", "6"],
    ["weekday(0001-01-01)", "1"],
  ]);
});

describe("words over lists", () => {
  worth([
    ["sum([1, 2, 3])", "6"],
    ["sum([])", "0"],
    ["sum([0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1])", "1"],
    ["sum([1e16, 1, -1e16])", "1"],
    ["sum([1 day, 2 weeks])", "15 days"],
    ["mean([1, 2, 6])", "3"],
    ["mean([])", "missing"],
    ["median([3, 1, 2])", "2"],
    ["median([4, 1, 2, 3])", "2.5"],
    ["median([1 day, 4 days])", "3 days"],
    ["median([1, missing])", "missing"],
    ["median(known([1, missing]))", "1"],
    ["min(3, 1, 2)", "1"],
    ["max([3, 1, 2])", "3"],
    ["max(1, [5, 2], 3)", "5"],
    ["min(2025-03-31, 2024-01-01)", "2024-01-01"],
    ["min(1, missing)", "missing"],
    ["min([])", "missing"],
    ["first_known(missing, 2, 3)", "2"],
    ["first_known(missing, missing)", "missing"],
    ['first_known(missing, "a")', '"a"'],
    ["length([1, missing])", "2"],
    ["count_known([1, missing])", "1"],
    ["count_missing([1, missing])", "1"],
    ["share([true, false, true, true])", "0.75"],
    ["share([])", "missing"],
    ["item([7, 8], 2)", "8"],
    ["item([7, 8], 3)", "missing"],
  ]);

  // Hyndman and Fan's definition 7; the figures are those of the straight line by hand.
  worth([
    ["quantile([1, 2, 3, 4], 25%)", "1.75"],
    ["quantile([1, 2, 3, 4], 0.5)", "2.5"],
    ["quantile([1, 2, 3, 4], 0)", "1"],
    ["quantile([1, 2, 3, 4], 1)", "4"],
    ["quantile([10], 0.3)", "10"],
  ]);

  // The sample standard deviation of 2, 4, 4, 4, 5, 5, 7, 9 is the root of 32 / 7.
  worth([
    ["standard_deviation([2, 4, 4, 4, 5, 5, 7, 9]) ^ 2 * 7 / 32 - 1 < 1e-12", "true"],
    ["standard_deviation([5])", "missing"],
    ["standard_deviation([5, 5])", "0"],
  ]);
});

describe("words without an answer", () => {
  it.each([
    "sqrt(-1)",
    "ln(0)",
    "exp(1000)",
    "remainder(1, 0)",
    "round(1, digits: 0.5)",
    'number_from("twelve")',
    'number_from("0x10")',
    'day_from_text("31/03/2025")',
    "day_from(2025, 2, 29)",
    "age_at(2025-03-31, 2025-03-30)",
    "months_after(2025-03-31, 0.5)",
    "months_after(9999-12-31, 1)",
    "quantile([1], 1.5)",
  ])("%s is a problem", (text) => {
    expect(work(text)).toMatch(/^`\w+` has no answer for these values\./);
  });

  it.each(['sum(["a"])', "median([2025-03-31])", 'min(1, "a")', 'max("a", "b")', "share([1])"])(
    "%s is a problem of kinds",
    (text) => {
      expect(work(text)).toMatch(/^the list for `\w+` (mixes kinds|holds .*)\./);
    },
  );
});

describe("the list of words", () => {
  it("has each name once, each with a meaning and every argument with one", () => {
    expect(new Set(generalWords.map(({ name }) => name)).size).toBe(generalWords.length);
    for (const word of generalWords) {
      expect(vocabulary.get(word.name)).toBe(word);
      expect(word.meaning).not.toBe("");
      expect(word.parameters.every(({ meaning }) => meaning !== "")).toBe(true);
    }
  });
});
