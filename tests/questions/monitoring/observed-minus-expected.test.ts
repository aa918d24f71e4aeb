import { describe, expect, test } from "vitest";
import { observedMinusExpected as lineOf } from "../../../src/statistics/observed-minus-expected.ts";
import { ask } from "../ask.ts";
import { othersOf, seriesOfEyes } from "./series-of-eyes.ts";

describe("observed_minus_expected", () => {
  // The ten cases of racusum_small.csv; drawn expected minus observed they end at -3.44 (R).
  const risks = [5, 10, 30, 8, 20, 13, 5, 40, 10, 15];
  const outcomes = [0, 1, 0, 1, 1, 0, 0, 1, 0, 1] as const;
  const shares = risks.map((risk) => risk / 100);
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

  test("the odds of crossing a limit somewhere along the line, by each of its 1,024 courses", () => {
    const { lower, upper } = lineOf(outcomes.map(Number), shares);
    const crosses = (within: (difference: number, i: number) => boolean, odds: number) => {
      let sum = 0;
      for (let course = 0; course < 1024; course++) {
        let [difference, chance, crossed] = [0, 1, false];
        shares.forEach((share, i) => {
          const risk = (odds * share) / (1 - share + odds * share);
          const failed = (course >> i) & 1;
          difference += failed - share;
          chance *= failed === 1 ? risk : 1 - risk;
          crossed ||= !within(difference, i);
        });
        if (crossed) sum += chance;
      }
      return sum;
    };
    const isBelow = (difference: number, i: number) => difference <= (upper[i] ?? 0) + 1e-9;
    const isAbove = (difference: number, i: number) => difference >= (lower[i] ?? 0) - 1e-9;
    const inside = (difference: number, i: number) =>
      isBelow(difference, i) && isAbove(difference, i);
    expect(figures.false_signal_within).toBeCloseTo(crosses(inside, 1), 12);
    expect(figures.noticed_within).toBeCloseTo(crosses(isBelow, 2), 12);
  });

  test("the mean operations to notice a doubling, by a chain of its own", () => {
    // One risk of a half: the upper limit is first passed after ever more failures; followed far enough.
    const half = seriesOfEyes([0, 1], { of: () => ({ clock_hours_detached: 50 }) });
    const of = ask(working, { eyes: half }).figures;
    const { upper, expected } = lineOf(new Array(400).fill(0), new Array(400).fill(0.5));
    let [left, mean] = [new Map([[0, 1]]), 1];
    for (let i = 0; i < 400; i++) {
      const next = new Map<number, number>();
      for (const [failed, share] of left) {
        for (const [count, of] of [
          [failed, share / 3],
          [failed + 1, (2 * share) / 3],
        ] as const) {
          if (count - (expected[i] ?? 0) > (upper[i] ?? 0) + 1e-9) continue;
          next.set(count, (next.get(count) ?? 0) + of);
        }
      }
      left = next;
      mean += [...left.values()].reduce((sum, share) => sum + share, 0);
    }
    expect(of.run_length_doubled).toBeCloseTo(mean, 4);
  });

  test("says the odds of both mistakes", () => {
    expect(sentence).toMatch(
      / Watched all along, where nothing has changed it crosses a limit by chance with a probability of \d+\.\d% within 10 operations \(no mean number of operations until then exists; half of such lines (have crossed one|still keep within them) after [\d,]+\); where the odds are doubled from the first operation on, it crosses the upper one after \d+ on average, and with a probability of \d+\.\d% within 10 operations\./,
    );
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
