import { describe, expect, test } from "vitest";
import { ask } from "../ask.ts";
import { othersOf, seriesOfEyes } from "./series-of-eyes.ts";

describe("observed_minus_expected", () => {
  // The ten cases of racusum_small.csv; drawn expected minus observed they end at -3.44 (R).
  const risks = [5, 10, 30, 8, 20, 13, 5, 40, 10, 15];
  const outcomes = [0, 1, 0, 1, 1, 0, 0, 1, 0, 1] as const;
  const eyes = seriesOfEyes(outcomes, { of: (i) => ({ clock_hours_detached: risks[i] ?? 0 }) });
  const working =
    'observed_minus_expected(eyes, surgeon: "A", expected: clock_hours_detached / 100, source: "a paper")';
  const { figures, sentence, rows, cautions, lines, answer } = ask(working, { eyes });

  test("the running sum, as worked in R with the sign turned", () => {
    const expected = [-0.05, 0.85, 0.55, 1.47, 2.27, 2.14, 2.09, 2.69, 2.59, 3.44];
    (figures.line as unknown as readonly number[]).forEach((value, i) => {
      expect(value).toBeCloseTo(expected[i] ?? Number.NaN, 10);
    });
  });

  test("limits that are said to hold at one operation only", () => {
    expect(sentence).toContain(
      " Observed less expected is +3.4 at the last operation, where 95% of such series would lie between −1.6 and +2.4 (exact, and at that one operation only): more failures than the limits allow.",
    );
    expect(cautions[0]).toBe("limits-at-one-operation");
  });

  test("every row opens its eyes, and the chart ends where the table does", () => {
    expect(rows.at(-1)?.slice(1, 5)).toEqual(["10", "5", "1.6", "+3.4"]);
    expect(lines("upto9:failed")).toHaveLength(5);
    if (answer.chart?.draw !== "monitoring") throw new Error("no line is drawn");
    const end = answer.chart.monitoring.panels[0]?.lines[0]?.points.at(-1);
    expect(end?.value).toBeCloseTo(3.44, 10);
  });

  test("expected from the rate of others; none failed; no eyes", () => {
    const others = [...othersOf("B", 10, 90), ...othersOf("C", 10, 90)];
    const none = ask('observed_minus_expected(eyes, surgeon: "A")', {
      eyes: seriesOfEyes([0, 0, 0, 0], { others }),
    });
    expect(none.figures.difference).toBeCloseTo(-0.4, 10);
    const empty = ask('observed_minus_expected(eyes, surgeon: "A")', {
      eyes: seriesOfEyes(["?"], { others }),
    });
    expect(empty.sentence).toBe("A has no operation whose outcome is known.");
  });
});
