import { describe, expect, test } from "vitest";
import { ask } from "../ask.ts";
import { groupsOfEyes } from "../groups-of-eyes.ts";

const eyes = groupsOfEyes([
  { surgeon: "A", technique: "vitrectomy", pvr_grade: "none", failed: 3, attached: 25, lost: 6 },
  { surgeon: "A", technique: "scleral buckle", pvr_grade: "none", failed: 2, attached: 10 },
  {
    surgeon: "A",
    technique: "vitrectomy",
    pvr_grade: "none",
    failure_cause: ["missed break"],
    failed: 1,
    attached: 0,
  },
  { surgeon: "A", technique: "pneumatic retinopexy", pvr_grade: "none", failed: 1, attached: 4 },
  { surgeon: "B", technique: "vitrectomy", pvr_grade: "none", failed: 5, attached: 35 },
  { surgeon: "B", technique: "scleral buckle", pvr_grade: "none", failed: 1, attached: 9 },
  { surgeon: "B", technique: "pneumatic retinopexy", pvr_grade: "none", failed: 2, attached: 4 },
  { surgeon: "C", technique: "vitrectomy", pvr_grade: "B", failed: 5, attached: 35 },
  { surgeon: "C", technique: "scleral buckle", pvr_grade: "none", failed: 1, attached: 9 },
]);

describe("my_eyes", () => {
  const { sentence, rows, figures, lines, answer, cautions } = ask('my_eyes(eyes, surgeon: "A")', {
    eyes,
  });

  test("what is known and what was lost comes first", () => {
    expect(sentence).toMatch(
      /^Of 52 eyes of A, the outcome at 3 months is known for 46 \(88\.5%\)\. That of 6 eyes is not known\. So many are lost that the rate below rests on the rest: 13\.5% if none of them failed, 25\.0% if all did\./,
    );
    expect(cautions[0]).toBe("many-not-known");
  });

  test("beside the unit without me, over all eyes and by technique and stratum", () => {
    expect(rows[0]?.slice(1, 9)).toEqual([
      "all eyes",
      "46",
      "6",
      "7",
      "15.2% (7.6 – 28.2)",
      "106",
      "14",
      "13.2% (8.0 – 21.0)",
    ]);
    expect(rows.find((row) => row[1] === "scleral buckle")?.slice(2, 5)).toEqual(["12", "0", "2"]);
    expect(figures.unit_rate).toBeCloseTo(14 / 106, 12);
    expect(figures.expected).toBeCloseTo((46 * 14) / 106, 10);
  });

  test("where the others are one surgeon they are kept back, with one kind more", () => {
    // Only B has others' gas eyes: the buckles, the next fewest, go with it.
    const kept = rows.filter((row) => row[6] === "kept back").map((row) => row[1]);
    expect(kept).toEqual(expect.arrayContaining(["pneumatic retinopexy", "scleral buckle"]));
    expect(cautions).toContain("kept-back");
    const said = JSON.stringify([answer.sentence, answer.table, answer.figures, answer.chart]);
    expect(said).not.toMatch(/"[BC]"/);
  });

  test("the eyes to look at again, each open", () => {
    expect(lines("review:no-cause")).toHaveLength(6);
    expect(lines("review:low-risk")).toHaveLength(7);
    expect(lines("review:break")).toHaveLength(1);
    expect(lines("review:unknown")).toHaveLength(6);
    expect(sentence).toContain(
      "To look at again: failed, no cause recorded (6); failed, low recorded risk (7); failed from a break (missed or new) (1); outcome at 3 months not known (6).",
    );
  });

  test("the chart has the rates of the table, my own chosen", () => {
    if (answer.chart?.draw !== "sectioned rates") throw new Error("no rates are drawn");
    const [all] = answer.chart.rates.sections;
    expect(all?.rows.map(({ label, rate }) => [label, rate])).toEqual([
      ["A", 7 / 46],
      ["the unit without A", 14 / 106],
    ]);
    expect(all?.rows[0]?.chosen).toBe(true);
  });

  test("only own eyes open", () => {
    const picks = answer.table.rows.flatMap((row) => row.flatMap(({ pick }) => pick ?? []));
    const patients = new Set(picks.flatMap((pick) => lines(pick).map(([line]) => line)));
    expect(Math.max(...[...patients].map(Number))).toBeLessThanOrEqual(53);
  });
});

test("no known outcome, and one other surgeon only", () => {
  const lost = groupsOfEyes([
    { surgeon: "A", failed: 0, attached: 0, lost: 2 },
    { surgeon: "B", failed: 2, attached: 5 },
    { surgeon: "C", failed: 2, attached: 5 },
  ]);
  expect(ask('my_eyes(eyes, surgeon: "A")', { eyes: lost }).sentence).toBe(
    "Of 2 eyes of A none has a known outcome yet.",
  );
  const two = groupsOfEyes([
    { surgeon: "A", failed: 1, attached: 5 },
    { surgeon: "B", failed: 2, attached: 5 },
  ]);
  expect(() => ask('my_eyes(eyes, surgeon: "A")', { eyes: two })).toThrow("one other surgeon");
});
