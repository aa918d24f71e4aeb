import { describe, expect, it } from "vitest";
import { outcomeOf, problemsOf } from "./working.ts";

/** `code@excerpt`, and the mend where one is offered. */
function faults(text: string): string {
  return problemsOf(text)
    .map(({ code, place, replacement }) => {
      const excerpt = text.slice(place.span?.start, place.span?.end);
      return `${code}@${excerpt}${replacement === undefined ? "" : ` -> ${replacement}`}`;
    })
    .join("; ");
}

describe("check", () => {
  it.each([
    "x + 1",
    "how_often.rate * 2",
    "rates_of(cases, by: sector, within: 90 days).rate",
    'rates_of(cases, by: age >= 70 and sector = "upper")',
    "summed_up(cases, median(age), share(age > 70), by: sector)",
    "if m is missing then 0 else m",
    'name is one of ["a", "b"]',
    "how_often.at(3 months) + sum([1, x])",
    "median([1, 2]) > 1",
    "m + x",
  ])("finds nothing in %s", (text) => {
    expect(faults(text)).toBe("");
  });

  it.each([
    ["xs + 1", "unknown-name@xs -> x"],
    ["wnted", "unknown-name@wnted -> wanted"],
    ["NULL", "unknown-name@NULL -> missing"],
    ["round", "word-not-called@round"],
    ["how_often()", "cell-called@how_often"],
    ["rates_off(cases)", "unknown-word@rates_off -> rates_of"],
    ["rates_of()", "argument-left-out@rates_of()"],
    ["rates_of(cases, bye: sector)", "unknown-argument@bye -> by"],
    ["rates_of(cases, by = sector)", "argument-with-equals@= -> :"],
    ["round(1, 2, 3)", "too-many-arguments@3"],
    ["round(1, number: 2)", "argument-given-twice@number"],
    ['round("a")', 'wrong-kind@"a"'],
    ["rates_of(cases, within: 90)", "wrong-kind@90 -> 90 days"],
    ["rates_of(3)", "wrong-kind@3"],
    ["rates_of(rates_of(cases))", "wrong-kind@rates_of(cases)"],
    ['year("2025-03-31")', 'wrong-kind@"2025-03-31" -> 2025-03-31'],
    ["round(7 days)", "wrong-kind@7 days -> 7"],
    ["median(3 + 4)", "wrong-kind@3 + 4 -> [3 + 4]"],
    ['rates_of(cases, ending: "opne")', 'wrong-choice@"opne" -> "open"'],
    ["rates_of(cases, ending: open)", 'text-without-quotes@open -> "open"'],
    ["90 > 3 months", "operator-kinds@90 -> 90 days"],
    ["2025-03-31 > 1", "operator-kinds@1 -> 1 day"],
    ['2025-03-31 = "2025-03-31"', 'operator-kinds@"2025-03-31" -> 2025-03-31'],
    ['"a" + "b"', "operator-kinds@+"],
    ['"a" < "b"', "operator-kinds@<"],
    ["1 + true", "operator-kinds@+"],
    ["[1] = [1]", "operator-kinds@="],
    ["rates_of(cases) + 1", "operator-kinds@+"],
    ["1 and true", "operator-kinds@1"],
    ["not 1", "operator-kinds@1"],
    ['-"a"', 'operator-kinds@-"a"'],
    ["if 1 then 2 else 3", "operator-kinds@1"],
    ["x is one of 3", "list-expected@3 -> [3]"],
    ['3 is one of ["a"]', 'operator-kinds@["a"]'],
    ["x = missing", "compared-with-missing@x = missing -> x is missing"],
    ["x != missing", "compared-with-missing@x != missing -> x is known"],
    ["3.rate", "no-parts@rate"],
    ["3 between 1 day and 5", "operator-kinds@3 -> 3 days"],
    ["x + 1 between 2 and [5]", "operator-kinds@[5]"],
    ["xs + wnted", "unknown-name@xs -> x; unknown-name@wnted -> wanted"],
    ["zzz(nobody)", "unknown-word@zzz"],
  ])("finds in %s: %s", (text, expected) => {
    expect(faults(text)).toBe(expected);
  });

  it("finds before the run what the run would find, in words and arguments", () => {
    for (const text of ["rates_off(cases)", "round(1, 2, 3)", 'round("a")', '"a" + "b"', "not 1"]) {
      const outcome = outcomeOf(text);
      expect(outcome.ok ? [] : outcome.problems).toEqual(problemsOf(text));
    }
  });
});
