import { expect, test } from "vitest";
import { layChart } from "../../src/charts/chart-request.ts";
import type { Answer } from "../../src/questions/answer.ts";

/** Tests of whatever an example answers: words without a gap, and a chart at two widths. */
export function answersWell(name: string, answer: Answer, sentence: string): void {
  test("answers, in words without a gap", () => {
    expect(answer.question).toBe(name);
    expect(answer.used).toBeGreaterThan(0);
    expect(sentence).toMatch(/^[A-Z].*\.$/);
    expect(sentence).not.toMatch(/NaN|undefined|null|Infinity|significan| {2}|\.\./);
    expect(JSON.stringify(answer)).not.toMatch(/NaN|undefined/);
    expect(answer.figures.headline).toEqual(expect.any(String));
  });

  test("draws at the width of a page and of a telephone", () => {
    if (answer.chart === undefined) throw new Error("no chart");
    for (const width of [780, 390]) {
      const chart = layChart(answer.chart, { width });
      expect(chart.width).toBe(width);
      expect(JSON.stringify(chart)).not.toContain("null,null");
      expect(chart.description).not.toMatch(/NaN|undefined/);
    }
  });
}
