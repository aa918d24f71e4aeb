import { describe, expect, it } from "vitest";
import { outcomeOf, work } from "./working.ts";

describe("numbers", () => {
  it.each([
    ["-2^2", "-4"],
    ["2^3^2", "512"],
    ["2^-1", "0.5"],
    ["7 - 2 - 1", "4"],
    ["8 / 4 / 2", "1"],
    ["1 + 2 * 3", "7"],
    ["85% * 200", "170"],
    ["x + 1", "4"],
    ["x = 3", "true"],
    ["x != 3", "false"],
    ["1 < 2 and 2 <= 2 and 3 > 2 and 3 >= 3", "true"],
    ["x between 1 and 3", "true"],
    ["x is not between 1 and 3", "false"],
    ["0.1 + 0.2 = 0.3", "false"],
  ])("%s is %s", (text, expected) => {
    expect(work(text)).toBe(expected);
  });
});

describe("days and lengths of time", () => {
  // 1, 3, 6 and 12 months are 30, 91, 183 and 365 days: a month is 365.25 / 12 days.
  it.each([
    ["1 month", "30 days"],
    ["3 months", "91 days"],
    ["6 months", "183 days"],
    ["12 months", "365 days"],
    ["2 weeks", "14 days"],
    ["2025-03-31 - 2025-01-01", "89 days"],
    ["2025-03-31 + 1 day", "2025-04-01"],
    ["1 day + 2025-03-31", "2025-04-01"],
    ["2025-03-31 - 1 month", "2025-03-01"],
    ["2024-02-28 + 1 day", "2024-02-29"],
    ["3 months * 2", "182 days"],
    ["0.5 * 91 days", "46 days"],
    ["91 days / 2", "46 days"],
    ["91 days / 7 days", "13"],
    ["6 weeks + 3 days", "45 days"],
    ["-(3 months)", "-91 days"],
    ["3 months = 91 days", "true"],
    ["lasted > 90 days", "true"],
    ["2025-03-31 > 2025-03-30", "true"],
    ["operated between 2025-01-01 and 2025-12-31", "true"],
  ])("%s is %s", (text, expected) => {
    expect(work(text)).toBe(expected);
  });
});

describe("texts and lists", () => {
  it.each([
    ['"a" = "a"', "true"],
    ['"a" = "A"', "false"],
    ['name != "radial"', "true"],
    ['name is one of ["segmental", "radial"]', "true"],
    ['name is not one of ["segmental", "radial"]', "false"],
    ['"a" is one of wanted', "true"],
    ["x is one of []", "false"],
    ["[1, m, name]", '[1, missing, "segmental"]'],
  ])("%s is %s", (text, expected) => {
    expect(work(text)).toBe(expected);
  });
});

describe("missing", () => {
  it.each([
    ["m + 1", "missing"],
    ["m * m", "missing"],
    ["-m", "missing"],
    ["m = m", "missing"],
    ["m < 3", "missing"],
    ["m = missing", "missing"],
    ["m is missing", "true"],
    ["m is known", "false"],
    ["m is not missing", "false"],
    ["x is known", "true"],
    ["m between 1 and 2", "missing"],
    ["5 between 7 and m", "false"],
    ["5 between 1 and m", "missing"],
    ["m is one of [1, 2]", "missing"],
    ["m is one of []", "false"],
    ["1 is one of [1, m]", "true"],
    ["3 is one of [1, m]", "missing"],
    ["3 is not one of [1, m]", "missing"],
    ["3 is one of m", "missing"],
    ["if m then 1 else 2", "missing"],
    ["if m is missing then 1 else 2", "1"],
    ["m.rate", "missing"],
    ["round(m)", "missing"],
    ["operated + m", "missing"],
  ])("%s is %s", (text, expected) => {
    expect(work(text)).toBe(expected);
  });
});

describe("what decides leaves the rest alone", () => {
  it.each([
    ["false and 1 / 0 > 1", "false"],
    ["true or 1 / 0 > 1", "true"],
    ["if true then 1 else 1 / 0", "1"],
    ["if false then nobody else 2", "2"],
  ])("%s is %s", (text, expected) => {
    expect(work(text)).toBe(expected);
  });
});

describe("parts", () => {
  it.each([
    ["how_often.rate", "0.25"],
    ["1 - how_often.rate", "0.75"],
    ["how_often.at(90 days)", "90"],
    ["rates_of(cases).eyes", "40"],
    ["rates_of(cases, by: sector, within: 3 months).rate * 4", "1"],
  ])("%s is %s", (text, expected) => {
    expect(work(text)).toBe(expected);
  });
});

describe("calls", () => {
  it("hands repeated arguments over in order, with their free names", () => {
    expect(work("summed_up(cases, median(age), oldest: max(age), by: sector)")).toBe(
      '["-: median(age)", "oldest: max(age)"]',
    );
  });

  it("gives a word's own problems the span of the call where they have none", () => {
    const outcome = outcomeOf("1 + refuses()");
    expect(outcome).toEqual({
      ok: false,
      problems: [
        {
          code: "made-up",
          severity: "stop",
          place: { span: { start: 4, end: 13 } },
          message: "this is refused.",
        },
      ],
    });
  });

  it("tells the faults of all arguments together", () => {
    const outcome = outcomeOf('rates_of(nobody, ending: "ajar", within: 3)');
    expect(outcome.ok).toBe(false);
    expect(outcome.ok ? [] : outcome.problems.map(({ code }) => code)).toEqual([
      "unknown-name",
      "wrong-choice",
      "wrong-kind",
    ]);
  });
});

describe("outcomes that cannot be reckoned with", () => {
  it.each(["1 / 0", "0 / 0", "10 ^ 400", "(-8) ^ 0.5", "9999-12-31 + 1 day", "1 day / 0"])(
    "%s is a problem",
    (text) => {
      const outcome = outcomeOf(text);
      expect(outcome.ok ? [] : outcome.problems.map(({ code }) => code)).toEqual(["not-finite"]);
    },
  );
});
