import { describe, expect, test } from "vitest";
import { dayNumber } from "../../../src/formula/calendar.ts";
import { ask } from "../ask.ts";
import { groupsOfEyes, type Row } from "../groups-of-eyes.ts";

const dayIn = (year: number, month: number) => dayNumber({ year, month, day: 10 });

/** Eyes operated on one day: failed after 40 days, the others seen for 400. */
function quarter(day: number, failed: number, attached: number, lost = 0) {
  const at = (days: number): Row => ({ operation_date: day, last_seen_date: day + days });
  return [
    { ...at(300), redetachment_date: day + 40, failed, attached: 0 },
    { ...at(400), failed: 0, attached },
    { ...at(50), failed: 0, attached: lost },
  ].map(({ failed: f, attached: a, ...over }) => ({ ...over, failed: f, attached: a }));
}

/** Groups of eyes whose own days hold. */
function eyesOfQuarters(quarters: readonly ReturnType<typeof quarter>[]) {
  return groupsOfEyes(
    quarters
      .flat()
      .flatMap(({ failed, attached, ...over }) => [
        ...(failed > 0 ? [{ ...over, failed: 0, attached: failed }] : []),
        ...(attached > 0 ? [{ ...over, failed: 0, attached }] : []),
      ]),
  );
}

const eyes = eyesOfQuarters([
  quarter(dayIn(2023, 2), 5, 45),
  quarter(dayIn(2023, 8), 6, 44, 3),
  quarter(dayIn(2023, 11), 20, 30),
]);

describe("periods", () => {
  const { figures, rows, sentence, answer, lines } = ask("periods(eyes, within: 3 months)", {
    eyes,
  });

  test("quarters in order, those without an operation among them", () => {
    expect(rows.map(([label]) => label)).toEqual(["2023 Q1", "2023 Q2", "2023 Q3", "2023 Q4"]);
    expect(rows[1]?.slice(1, 4)).toEqual(["0", "0", "–"]);
    expect(rows[2]?.[6]).toBe("3");
    expect(lines("t3:failed")).toHaveLength(20);
  });

  test("limits exact at the level of three sigma around the rate of all", () => {
    expect(figures.centre).toBeCloseTo(31 / 150, 12);
    expect(figures.outside).toBe(1);
    expect(sentence).toContain(
      "Of 4 periods by quarter, 2023 Q4 (above) lies outside the exact limits around 20.7% (the rate of all). With periods of these sizes, where nothing has changed one lies outside by chance once in 21,368 eyes on average, and with a probability of 0.7% among these 3; where the rate is doubled from the first on, one lies above after 80 eyes on average.",
    );
  });

  test("the odds of both mistakes, as R's dbinom sums them over periods of 50 eyes", () => {
    expect(figures.false_signal_within).toBeCloseTo(0.00700347552927, 10);
    expect(figures.run_length_in_control).toBeCloseTo(21367.859243, 4);
    expect(figures.run_length_doubled).toBeCloseTo(79.5930311745, 8);
    const sigma = ask('periods(eyes, limits: "three-sigma", target: 10%)', { eyes }).figures;
    expect(sigma.false_signal_within).toBeCloseTo(0.00962869311516, 10);
    expect(sigma.run_length_in_control).toBeCloseTo(15528.3306297, 4);
    expect(sigma.run_length_doubled).toBeCloseTo(172.811620344, 8);
  });

  test("periods that cannot lie outside have no run length", () => {
    const few = eyesOfQuarters([quarter(dayIn(2023, 2), 1, 1), quarter(dayIn(2023, 8), 0, 1)]);
    const { figures: of, sentence: said } = ask("periods(eyes)", { eyes: few });
    expect([of.false_signal_within, of.run_length_in_control]).toEqual([0, null]);
    expect(said).toContain("where nothing has changed none can lie outside");
  });

  test("three-sigma limits by Shewhart's formula, within 0 and 1", () => {
    const groups = ask('periods(eyes, limits: "three-sigma", target: 10%)', { eyes }).figures
      .groups as unknown as readonly Record<string, number>[];
    expect(groups[0]?.limit_upper).toBeCloseTo(0.1 + 3 * Math.sqrt((0.1 * 0.9) / 50), 12);
    expect(groups[0]?.limit_lower).toBe(0);
  });

  test("the chart has the same rates and rings the period outside", () => {
    if (answer.chart?.draw !== "monitoring") throw new Error("no periods are drawn");
    const [panel] = answer.chart.monitoring.panels;
    expect(panel?.dots.map(({ value }) => value)).toEqual([0.1, 0.12, 0.4]);
    expect(panel?.signals.map(({ label }) => label)).toEqual(["2023 Q4"]);
  });

  test("any other periods; none known; no rate for a target", () => {
    const years = ask("periods(eyes, by: year(operation_date))", { eyes });
    expect(years.rows.map((row) => row.slice(0, 3))).toEqual([["2023", "150", "31"]]);
    const none = ask("periods(eyes)", {
      eyes: groupsOfEyes([{ failed: 0, attached: 0, lost: 2 }]),
    });
    expect(none.sentence).toBe("No eyes whose outcome is known to follow over time.");
    expect(() => ask("periods(eyes, target: 10)", { eyes })).toThrow("not a share between 0 and 1");
  });
});

describe("before_after", () => {
  // Newcombe, Statistics in Medicine 1998;17:873, example (a): 56/70 against 48/80, method 10.
  const sides = eyesOfQuarters([
    quarter(dayIn(2023, 2), 48, 32),
    quarter(dayIn(2023, 8), 56, 14, 2),
  ]);
  const { figures, sentence, rows, cautions, lines, answer } = ask(
    "before_after(eyes, on: 2023-06-01)",
    { eyes: sides },
  );

  test("the difference with Newcombe's interval, as published", () => {
    expect(figures.difference).toBeCloseTo(0.2, 12);
    expect(figures.difference_lower).toBeCloseTo(0.0524, 4);
    expect(figures.difference_upper).toBeCloseTo(0.3339, 4);
    expect(sentence).toContain(
      "a difference of 20.0 percentage points (95% Newcombe interval 5.2 to 33.4; Fisher's exact test, p = ",
    );
  });

  test("both sides open; what is not known is said; other things may have changed", () => {
    expect(rows.map((row) => row.slice(0, 3))).toEqual([
      ["before 2023-06-01", "80", "48"],
      ["from 2023-06-01 on", "70", "56"],
    ]);
    expect(lines("after:failed")).toHaveLength(56);
    expect(sentence).toContain("The outcome of no eyes before and of 2 eyes after is not known.");
    expect(cautions[0]).toBe("other-things-changed");
  });

  test("the chart is cut at the day, with a centre on either side", () => {
    if (answer.chart?.draw !== "monitoring") throw new Error("no quarters are drawn");
    const [panel] = answer.chart.monitoring.panels;
    expect(panel?.breaks).toEqual([{ at: 1.5, label: "2023-06-01" }]);
    expect(panel?.references.map(({ value }) => value)).toEqual([0.6, 0.8]);
  });

  test("case mix allowed for by a model of the eyes before", () => {
    const withPvr = (rowsOf: ReturnType<typeof quarter>, pvr_grade: string) =>
      rowsOf.map((row) => ({ ...row, pvr_grade }));
    const mixed = eyesOfQuarters([
      withPvr(quarter(dayIn(2023, 2), 6, 54), "none"),
      withPvr(quarter(dayIn(2023, 2), 8, 12), "B"),
      withPvr(quarter(dayIn(2023, 8), 2, 18), "none"),
      withPvr(quarter(dayIn(2023, 8), 16, 24), "B"),
    ]);
    const adjusted = ask("before_after(eyes, pvr_grade, on: 2023-06-01)", { eyes: mixed });
    // 20 at 6/60 and 40 at 8/20.
    expect(adjusted.figures.expected_after).toBeCloseTo(18, 4);
    expect(adjusted.figures.ratio).toBeCloseTo(1, 4);
    expect(adjusted.sentence).toContain(
      "Of the 60 eyes after on which pvr grade is recorded 18 failed, where a model of the eyes before expects 18.0: observed over expected 1.00",
    );
  });

  test("a model of few failures is said to be unsteady, and to be penalised", () => {
    const withPvr = (rowsOf: ReturnType<typeof quarter>, pvr_grade: string) =>
      rowsOf.map((row) => ({ ...row, pvr_grade }));
    const few = eyesOfQuarters([
      withPvr(quarter(dayIn(2023, 2), 2, 38), "none"),
      withPvr(quarter(dayIn(2023, 2), 4, 16), "B"),
      withPvr(quarter(dayIn(2023, 8), 2, 18), "none"),
      withPvr(quarter(dayIn(2023, 8), 6, 14), "B"),
    ]);
    const { answer: of } = ask("before_after(eyes, pvr_grade, on: 2023-06-01)", { eyes: few });
    const texts = new Map(of.cautions.map(({ code, text }) => [code, text]));
    expect(texts.get("few-failures-per-column")).toBe(
      "The model of the eyes before has 6 failures for its one column (10 are better): what it expects is unsteady.",
    );
    expect(texts.get("penalised-likelihood")).toMatch(
      /^The model of the eyes before is fitted by Firth's penalised likelihood, as failures are few /,
    );
    expect(cautions).not.toContain("few-failures-per-column");
  });

  test("nothing on one side", () => {
    const { sentence: said } = ask("before_after(eyes, on: 2020-01-01)", { eyes: sides });
    expect(said).toContain("On one side no outcome is known, so there is no difference to tell.");
  });
});
