import { describe, expect, test } from "vitest";
import { ask } from "../ask.ts";

describe("enough_cases", () => {
  const { figures, sentence, rows, answer } = ask("enough_cases(target: 13%, worse: 26%)", {});

  test("cases of one person by the exact binomial test, as R counts them out", () => {
    expect(figures.cases).toBe(81);
    expect(figures.critical_failures).toBe(18);
    expect(figures.power_reached).toBeCloseTo(0.815429366464312, 12);
    const ten = ask("enough_cases(target: 10%, worse: 13%)", {}).figures;
    expect([ten.cases, ten.critical_failures]).toEqual([933, 113]);
    const other = ask("enough_cases(target: 15%, worse: 25%, power: 90%, false_alarm: 5%)", {});
    expect(other.figures.cases).toBe(149);
  });

  test("cases without a failure: the rule of three, exactly", () => {
    expect(figures.cases_without_failure).toBe(Math.ceil(Math.log(0.025) / Math.log(0.87)));
    expect(sentence).toContain("Without a single failure, 27 cases show a rate under 13.0%.");
  });

  test("two people side by side, near Fleiss's formula with correction", () => {
    // Casagrande, Pike and Smith 1978 for 10% against 20%: 219 in each group.
    const { cases_per_group } = ask("enough_cases(target: 10%, worse: 20%)", {}).figures;
    expect(Number(cases_per_group)).toBeGreaterThan(205);
    expect(Number(cases_per_group)).toBeLessThan(225);
  });

  test("sentence, table and chart from the same numbers", () => {
    expect(sentence).toContain(
      "takes 81 cases of one person: 18 failures or more among them show that the rate is above 13.0%, and there are as many 81.5% of the time if it is 26.0% (wanted: 80.0%), 2.5% of the time at most if it is not.",
    );
    expect(rows.find(([cases]) => cases === "81 (enough)")?.slice(1)).toEqual([
      "18",
      "81.5%",
      "yes",
    ]);
    if (answer.chart?.draw !== "table") throw new Error("no line is drawn");
    expect(answer.chart.drawing.marks.every(({ up }) => up !== null && up >= 0 && up <= 1)).toBe(
      true,
    );
  });

  test.each([
    ["enough_cases(target: 13%, worse: 10%)", "worse cannot be 0.1"],
    ["enough_cases(target: 13, worse: 26)", "target cannot be 13"],
    ["enough_cases(target: 13%, worse: 26%, power: 100%)", "power cannot be 1"],
  ])("%s is refused in words", (working, message) => {
    expect(() => ask(working, {})).toThrow(message);
  });
});
