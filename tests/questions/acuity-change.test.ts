import { describe, expect, test } from "vitest";
import type { CellValue } from "../../src/cases/table.ts";
import { layChart } from "../../src/charts/chart-request.ts";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "./ask.ts";

type Row = Readonly<Record<string, CellValue>>;

/** Eyes of patients of their own with acuities in logMAR. */
function cells(rows: readonly Row[]) {
  const all = rows.map((row, eye) => primary({ patient: `P${eye + 1}`, ...row }));
  const cases = casesValue(casesOf(all));
  return { cases, eyes: workedOut("index_eyes(cases)", { cases }) };
}

const eye = (before: number | null, after: number | null, more: Row = {}): Row => ({
  acuity_before: before,
  acuity_after: after,
  ...more,
});
const hm: Row = { acuity_before: 2.3, acuity_before_written: "HM", acuity_after: 0.3 };

describe("acuity_change", () => {
  const five = cells([
    eye(1, 0.2, { acuity_after_date: 1100 }),
    eye(0.5, 0.2, { acuity_after_date: 1200 }),
    eye(0.3, 0.2, { acuity_after_date: 1400 }),
    eye(0, 0.4),
    hm,
    eye(0.3, null),
  ]);
  const { sentence, rows, figures, answer, lines, cautions } = ask("acuity_change(eyes)", five);

  test("medians and quartiles by hand, and Wilson's interval", () => {
    expect(figures).toMatchObject({ pairs: 5, before: 0.5, after: 0.2, headline: "3 of 5" });
    expect(figures).toMatchObject({ before_lower_quartile: 0.3, before_upper_quartile: 1 });
    // Wilson for 3 of 5: 0.2307 to 0.8824; for 1 of 5: 0.0362 to 0.6245.
    expect(rows[0]?.slice(8)).toEqual(["3", "60.0% (23.1 – 88.2)", "1", "20.0% (3.6 – 62.4)"]);
  });

  test("in words, the table's name beside the mean", () => {
    expect(sentence).toBe(
      "Of 6 eyes, 5 have their acuity before and after. The median was 0.50 logMAR (quartiles 0.30 " +
        "to 1.00; 60 letters) before and 0.20 logMAR (quartiles 0.20 to 0.30; 75 letters) after; the " +
        "mean was 0.82 before and 0.26 after (table of Bach: low vision before in 1 and after in 0). " +
        "3 gained 0.3 logMAR (15 letters) or more (60.0%, 95% Wilson interval 23.1 to 88.2%), 1 lost " +
        "as much (20.0%, 95% Wilson interval 3.6 to 62.4%), 1 changed by less. The later acuity was " +
        "measured a median of 200 days after the repair where known (3) (quartiles 150 to 300).",
    );
    expect(answer.table.columns.filter(({ label }) => label.includes("mean"))).toHaveLength(2);
    for (const { label } of answer.table.columns) {
      if (label.includes("mean")) expect(label).toContain("table of Bach");
    }
  });

  test("another table moves the mean by a lot, the median not at all, and says its name", () => {
    const other = ask('acuity_change(eyes, table: "Holladay 1997")', five);
    expect(other.figures.mean_before).toBeCloseTo((1 + 0.5 + 0.3 + 0 + 3) / 5, 12);
    expect(other.figures.before).toBe(figures.before);
    expect(other.sentence).toContain("table of Holladay 1997");
    expect(() => ask('acuity_change(eyes, table: "Holladay")', five)).toThrow("Holladay 1997");
  });

  test("letters are never below 0", () => {
    const low = ask("acuity_change(eyes)", cells([hm, hm]));
    expect(low.sentence).toContain("2.30 logMAR (quartiles 2.30 to 2.30; off the letter chart)");
    expect(low.sentence).not.toMatch(/-\d+ letters/);
  });

  test("every count and every point is opened", () => {
    for (const cell of answer.table.rows.flat()) {
      if (cell.pick !== undefined) expect(lines(cell.pick)).toHaveLength(Number(cell.value));
    }
    if (answer.chart?.draw !== "acuity scatter") throw new Error("no scatter is drawn");
    const { points } = answer.chart.scatter;
    expect(points.reduce((sum, { eyes }) => sum + eyes, 0)).toBe(5);
    for (const { pick, eyes } of points) expect(lines(pick)).toHaveLength(eyes);
    expect(answer.leftOut).toMatchObject([{ reason: "no acuity after is recorded", count: 1 }]);
    expect(lines(answer.leftOut[0]?.pick)).toEqual([[7]]);
  });

  test("the chart's words count as the table does", () => {
    if (answer.chart === undefined) throw new Error("no chart");
    expect(layChart(answer.chart, { width: 390 }).description).toBe(
      "Acuity after over acuity before for 5 eyes: 3 gained 0.3 logMAR or more, 1 lost as much, " +
        "1 changed by less. Low vision by the table of Bach: HM 2.30.",
    );
  });

  test("carries its cautions", () => {
    expect(cautions).toEqual(["small-numbers", "low-vision-by-table", "many-left-out"]);
  });

  test("split by the macula", () => {
    const split = ask(
      "acuity_change(eyes, by: macula)",
      cells([
        ...Array.from({ length: 10 }, () => eye(1.3, 0.3, { macula: "off" })),
        ...Array.from({ length: 10 }, () => eye(0.1, 0.1, { macula: "on" })),
      ]),
    );
    expect(split.rows.map((row) => [row[0], row[2], row[8]])).toEqual([
      ["off", "10", "10"],
      ["on", "10", "0"],
      ["all eyes", "20", "10"],
    ]);
    expect(split.sentence).toContain(
      "Medians by macula: off 1.30 to 0.30 (10 eyes); on 0.10 to 0.10 (10 eyes).",
    );
  });
});

describe("the sentence over a grid of answers", () => {
  test.each<[string, readonly Row[], RegExp]>([
    ["no eyes", [], /^No eyes to look at\.$/],
    ["no pair", [eye(0.3, null)], /^None of 1 eye has its acuity before and after\.$/],
    [
      "one pair",
      [eye(0.3, 0)],
      /^Of 1 eye, 1 has its acuity before and after\. It was 0\.30 logMAR before \(70 letters\) and 0\.00 after \(85 letters\) \(table of Bach: no eye had low vision\)\. 1 gained .*, none lost as much .*, none changed by less\. When the later acuity was measured is not recorded\.$/,
    ],
    [
      "none gained",
      [eye(0, 0), eye(0, 0)],
      /None gained .* \(0\.0%, .*\), none lost as much .*, 2 changed by less\./,
    ],
    ["all lost", [eye(0, 1), eye(0, 1)], /None gained .*, 2 lost as much \(100\.0%/],
  ])("%s", (_, rows, expected) => {
    const { sentence } = ask("acuity_change(eyes)", cells(rows));
    expect(sentence).toMatch(expected);
    expect(sentence).not.toMatch(/NaN|undefined|null|significan|-0\.00/);
  });
});
