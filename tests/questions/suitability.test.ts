import { describe, expect, test } from "vitest";
import type { CellValue } from "../../src/cases/table.ts";
import { layChart } from "../../src/charts/chart-request.ts";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "./ask.ts";

type Row = Readonly<Record<string, CellValue>>;

function cells(rows: readonly Row[]) {
  const all = rows.map((row, eye) =>
    primary({
      patient: `P${eye + 1}`,
      lens: "pseudophakic",
      lattice: "none",
      pvr_grade: "none",
      last_seen_date: 1400,
      status_last_seen: "attached",
      ...row,
    }),
  );
  const cases = casesValue(casesOf(all));
  return { cases, eyes: workedOut("index_eyes(cases, within: 12 months)", { cases }) };
}

const buckle: Row = { technique: "scleral buckle" };
const speaksFor: Row = { lattice: "extensive" };
const speaksAgainst: Row = { pvr_grade: "C" };
const failed: Row = { redetachment_date: 1040 };
const many = (count: number, row: Row): Row[] => Array.from({ length: count }, () => row);

describe("suitability", () => {
  const unit = cells([
    ...many(9, { ...buckle, ...speaksFor }),
    { ...buckle, ...speaksFor, ...failed },
    ...many(2, { ...buckle, ...speaksAgainst, ...failed }),
    ...many(3, speaksFor),
    { ...speaksFor, ...speaksAgainst },
    {},
    { lattice: null },
  ]);
  const { sentence, rows, answer, lines, figures, cautions } = ask("suitability(eyes)", unit);

  test("failure by technique within strata of features", () => {
    expect(rows.map((row) => row.slice(0, 4))).toEqual([
      ["only features for", "scleral buckle", "10", "1"],
      ["only features for", "vitrectomy", "3", "0"],
      ["only features for", "all of these", "13", "1"],
      ["features for and against", "vitrectomy", "1", "0"],
      ["features for and against", "all of these", "1", "0"],
      ["only features against", "scleral buckle", "2", "2"],
      ["only features against", "all of these", "2", "2"],
      ["no feature either way", "vitrectomy", "1", "0"],
      ["no feature either way", "all of these", "1", "0"],
      ["the record cannot tell", "vitrectomy", "1", "0"],
      ["the record cannot tell", "all of these", "1", "0"],
    ]);
  });

  test("in words, and without a recommendation", () => {
    expect(sentence).toMatch(
      /^By recorded features for and against a buckle, of 18 eyes 13 have only features for, 1 has features for and against, 2 have only features against, 1 has no feature either way and for 1 the record cannot tell\. Of 10 buckled eyes with only features for it, 1 failed within 12 months: 10\.0% \(95% .* interval .*\)\. Of 2 buckled eyes with a feature against it, 2 failed within 12 months: 100\.0% \(.*\)\. Of 3 eyes with only features for a buckle that had another operation, none failed within 12 months: 0\.0% \(.*\)\.$/,
    );
    expect(sentence).not.toMatch(/should|recommend|better|prefer/);
    expect(cautions).toEqual(["not-a-recommendation", "small-numbers", "techniques-chosen"]);
  });

  test("every count is opened, and an opened eye names its features", () => {
    for (const cell of answer.table.rows.flat()) {
      if (cell.pick !== undefined) expect(lines(cell.pick)).toHaveLength(Number(cell.value));
    }
    expect(lines("buckle:against")).toEqual([[12], [13]]);
    expect(figures.features).toContainEqual({
      feature: "extensive lattice",
      speaks: "for",
      eyes: 14,
    });
  });

  test("the chart says what the table says", () => {
    if (answer.chart === undefined) throw new Error("no chart");
    for (const width of [780, 390]) {
      const { data } = layChart(answer.chart, { width });
      expect(data.map(({ section, row, total, events }) => [section, row, total, events])).toEqual(
        answer.table.rows.map((row) => row.slice(0, 4).map(({ value }) => value)),
      );
    }
  });

  test("split by another column, and young by the reader", () => {
    const by = ask(
      "suitability(eyes, by: eye, young: 60)",
      cells([{ age: 55 }, { age: 70, eye: "left" }]),
    );
    expect(by.rows.map((row) => row.slice(0, 3))).toEqual([
      ["only features for", "right", "1"],
      ["only features for", "all of these", "1"],
      ["no feature either way", "left", "1"],
      ["no feature either way", "all of these", "1"],
    ]);
    expect(by.sentence).toContain("None had a scleral buckle alone.");
  });

  test("the words stand in any place over rows", () => {
    const split = ask("failure_rate(eyes, by: buckle_suitability())", unit);
    expect(split.rows.map(([label, eyes]) => [label, eyes])).toEqual([
      ["only features for", "13"],
      ["features for and against", "1"],
      ["only features against", "2"],
      ["no feature either way", "1"],
      ["not recorded", "1"],
      ["all eyes", "18"],
    ]);
    const where = "definitions(cases, where: length(features_against_buckle()) > 0)";
    expect(ask(where, unit).answer.used).toBe(3);
    expect(() => workedOut("buckle_suitability()")).toThrow("has no answer by itself");
  });
});

describe("the sentence over a grid of answers", () => {
  test.each<[string, readonly Row[], RegExp]>([
    ["no eyes", [], /^No eyes to look at\.$/],
    [
      "one eye",
      [{}],
      /^By recorded features for and against a buckle, of 1 eye 1 has no feature either way\. None had a scleral buckle alone\.$/,
    ],
    [
      "all buckles, all failed",
      many(30, { ...buckle, ...speaksFor, ...failed }),
      /Of 30 buckled eyes with only features for it, 30 failed .* There is no buckled eye with a feature against it\.$/,
    ],
  ])("%s", (_, rows, expected) => {
    const { sentence } = ask("suitability(eyes)", cells(rows));
    expect(sentence).toMatch(expected);
    expect(sentence).not.toMatch(/NaN|undefined|null|significan/);
  });
});
