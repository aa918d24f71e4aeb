import { describe, expect, test } from "vitest";
import type { CellValue } from "../../src/cases/table.ts";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "./ask.ts";

/**
 * The seven-term score of the early trials, KNOWN FROM MEMORY ALONE: no text at hand gives these
 * coefficients, so the sums below check the arithmetic and say nothing about the score.
 */
const sevenTerms = `points([
  if pvr_grade = "C" then 2.88 else if pvr_grade = "B" then 1.85 else 0,
  if lens = "aphakic" then 2.92 else 0,
  if uveitis then 1.77 else 0,
  1.23 * quadrants_detached,
  if vitreous_haemorrhage then 0.83 else 0,
  if previous_cryotherapy then 1.23 else 0
], source: "from memory", high_above: 6.33)`;

const none: Readonly<Record<string, CellValue>> = {
  pvr_grade: "none",
  lens: "phakic",
  uveitis: false,
  quadrants_detached: 2,
  vitreous_haemorrhage: false,
  previous_cryotherapy: false,
};

function strataOf(working: string, rows: readonly Readonly<Record<string, CellValue>>[]) {
  const cases = casesOf(rows.map((row, eye) => primary({ patient: `P${eye}`, ...none, ...row })));
  const kinds = { ...cases, cases };
  const columns = cases.cases.columns.map((column) =>
    column.name === "previous_cryotherapy" ? { ...column, kind: "truth" as const } : column,
  );
  const reading = { ...kinds, cases: { ...cases.cases, columns } };
  const eyes = workedOut("index_eyes(cases)", { cases: casesValue(reading) });
  return ask(`failure_rate(eyes, by: ${working})`, { eyes }).rows.slice(0, -1);
}

const low = "low: 6.33 or less (from memory)";
const high = "high: above 6.33 (from memory)";

describe("a published score as a stratum", () => {
  test.each<[string, Readonly<Record<string, CellValue>>, string]>([
    ["2.46", {}, low],
    ["8.46", { pvr_grade: "B", lens: "aphakic", quadrants_detached: 3 }, high],
    ["6.17", { pvr_grade: "C", vitreous_haemorrhage: true }, low],
    ["7.40", { pvr_grade: "C", vitreous_haemorrhage: true, previous_cryotherapy: true }, high],
    ["6.69", { uveitis: true, quadrants_detached: 4 }, high],
    ["5.75", { quadrants_detached: 4, vitreous_haemorrhage: true }, low],
    ["6.77", { pvr_grade: "B", quadrants_detached: 4 }, high],
    ["pseudophakia is no aphakia", { lens: "pseudophakic" }, low],
  ])("%s", (_, row, stratum) => {
    expect(strataOf(sevenTerms, [row]).map(([label]) => label)).toEqual([stratum]);
  });

  test("a missing part makes it not calculable, never 0", () => {
    const rows = [{}, { uveitis: null }, { quadrants_detached: null }];
    expect(strataOf(sevenTerms, rows).map((row) => row.slice(0, 2))).toEqual([
      [low, "1"],
      ["not calculable", "2"],
    ]);
  });

  test("low, high and not calculable stand in this order", () => {
    const rows = [{ lens: null }, { pvr_grade: "C", uveitis: true }, {}];
    expect(strataOf(sevenTerms, rows).map(([label]) => label)).toEqual([
      low,
      high,
      "not calculable",
    ]);
  });

  test("a sum on the cut-off is low, whatever binary makes of it", () => {
    expect(0.1 + 0.2 > 0.3).toBe(true);
    expect(workedOut('points([0.1, 0.2], source: "x", high_above: 0.3)')).toEqual({
      kind: "text",
      text: "low: 0.30 or less (x)",
    });
  });

  test.each([
    ['points([1, 2], source: " ", high_above: 1)', "needs its source"],
    ['points(["a"], source: "x", high_above: 1)', "are numbers"],
    ["points([1, 2], high_above: 1)", "source"],
  ])("%s is refused", (working, message) => {
    expect(() => workedOut(working)).toThrow(message);
  });

  test("a cut-off that differs by eye is refused, and so are points that are no numbers", () => {
    expect(() => strataOf('points([1], source: "x", high_above: age_limit)', [{}])).toThrow();
    const byEye = 'points([1], source: "x", high_above: quadrants_detached)';
    expect(() => strataOf(byEye, [{}])).toThrow("one cut-off for all eyes");
    expect(() => strataOf('points([lens], source: "x", high_above: 1)', [{}])).toThrow(
      "are numbers",
    );
  });
});
