import { describe, expect, test } from "vitest";
import { observedAgainstRisks } from "../../../src/statistics/poisson-binomial.ts";
import { ask } from "../ask.ts";
import { groupsOfEyes } from "../groups-of-eyes.ts";
import { hospitals } from "./hospitals.ts";

type Figures = Readonly<Record<string, number | string>>;
const groupsOf = (figures: Readonly<Record<string, unknown>>) =>
  figures.groups as readonly Figures[];

describe("funnel on twelve hospitals", () => {
  const eyes = groupsOfEyes(hospitals);
  const { figures, rows, sentence, cautions, lines } = ask(
    'funnel(eyes, by: surgeon, names: "shown")',
    { eyes },
  );
  const by = new Map(groupsOf(figures).map((group) => [group.group, group]));

  test("exact interpolated limits, as an own R script of Spiegelhalter's appendix has them", () => {
    const expected: readonly (readonly [string, number, number])[] = [
      ["B", 0.0309, 0.11522],
      ["D", 0.055779, 0.091827],
      ["E", 0.038259, 0.108675],
      ["H", 0.038422, 0.108505],
      ["K", 0.041404, 0.105465],
    ];
    for (const [name, lower, upper] of expected) {
      expect(by.get(name)?.lower_95).toBeCloseTo(lower, 6);
      expect(by.get(name)?.upper_95).toBeCloseTo(upper, 6);
    }
    expect(by.get("A")?.lower_95).toBe(0);
    expect(by.get("A")?.upper_95).toBeCloseTo(0.146429, 6);
    expect(by.get("H")?.upper_998).toBeCloseTo(0.132218, 6);
  });

  test("who lies outside; a unit in which none failed is never flagged", () => {
    const outside = groupsOf(figures).filter(({ position_95 }) => position_95 !== "inside");
    expect(outside.map(({ group, position_95 }) => `${group} ${position_95}`)).toEqual([
      "B above",
      "E below",
      "H above",
      "K above",
    ]);
    const alarm = groupsOf(figures).filter(({ position_998 }) => position_998 !== "inside");
    expect(alarm.map(({ group }) => group)).toEqual(["H"]);
    expect(rows[0]?.[4]).toMatch(/^none – 14\.6%$/);
  });

  test("over-dispersion, as R gives it", () => {
    expect(figures.dispersion_chi_square).toBeCloseTo(38.55563852, 7);
    expect(figures.dispersion_df).toBe(11);
    expect(figures.dispersion_p).toBeCloseTo(6.301653e-5, 10);
    expect(figures.phi).toBeCloseTo(2.363287036, 8);
    expect(figures.tau_squared).toBeCloseTo(0.0004898897, 9);
    expect(sentence).toContain(
      " By surgeon they differ more than chance explains (chi-square 38.6 on 11 degrees of freedom, p < 0.0001; variance 2.4 times that of chance, winsorised by a tenth)",
    );
  });

  test("the limits can be widened by it: then nobody lies outside the outer ones", () => {
    const widened = ask('funnel(eyes, by: surgeon, limits: "widened")', { eyes }).figures;
    expect(widened.above_998).toBe(0);
    const shown = ask('funnel(eyes, by: surgeon, names: "shown", limits: "widened")', { eyes });
    const h = groupsOf(shown.figures).find(({ group }) => group === "H");
    // 0.0739161 + 3.090232 sqrt(0.0739161 * 0.9260839 / 215 + 0.0004898897)
    expect(h?.upper_998).toBeCloseTo(
      0.0739161 + 3.090232 * Math.sqrt(0.000318384 + 0.0004898897),
      5,
    );
  });

  test("sentence, table and picks", () => {
    expect(sentence).toMatch(
      /^Of 2814 eyes|^Of 2,814 eyes whose outcome at 3 months is known, 208 redetached or never lay flat\. Around 7\.4% \(the rate of all together; exact limits\), of 12 by surgeon 3 above and 1 below the 95% limits, 1 above and none below the 99\.8% limits\./,
    );
    expect(rows[7]?.slice(0, 4)).toEqual(["H", "215", "31", "14.4%"]);
    expect(lines("u7:failed")).toHaveLength(31);
    expect(cautions).toEqual(
      expect.arrayContaining(["comparing-people", "several-looks", "several-people"]),
    );
  });
});

describe("names are hidden unless asked", () => {
  const eyes = groupsOfEyes(hospitals);
  const hidden = ask('funnel(eyes, by: surgeon, target: 8%, source: "agreed", mine: "H")', {
    eyes,
  });

  test("no code but the reader's own stands anywhere, and no other eyes open", () => {
    const { answer, rows, cautions } = hidden;
    const labels = rows.map(([label]) => label);
    expect(labels.filter((label) => !label?.startsWith("no. "))).toEqual(["H"]);
    const said = JSON.stringify([
      answer.sentence,
      answer.table,
      answer.chart,
      answer.figures,
      answer.cautions,
    ]);
    expect(said).not.toMatch(/"[A-GI-L]"/);
    const opened = answer.table.rows.filter((row) => row.some(({ pick }) => pick !== undefined));
    expect(opened).toHaveLength(1);
    expect(answer.leftOut.every(({ pick }) => pick === undefined)).toBe(true);
    expect(cautions).toContain("names-hidden");
  });

  test("rows stand in the order of size, not of result", () => {
    const sizes = hidden.rows.map((row) => Number(row[1]?.replace(",", "")));
    expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
  });

  test("the reader's own place is said with its exact test", () => {
    const { pTwoSided } = observedAgainstRisks(31, new Array(215).fill(0.08));
    expect(hidden.sentence).toContain(
      `H, 31 failed of 215, lies above the 99.8% limits (exact test, p = ${pTwoSided.toFixed(4)})`,
    );
    expect(hidden.sentence).toContain("Around 8.0% (agreed; exact limits)");
    if (hidden.answer.chart?.draw !== "funnel") throw new Error("no funnel is drawn");
    const { points } = hidden.answer.chart.funnel;
    expect(points.filter(({ label }) => label !== undefined)).toHaveLength(1);
    expect(points.filter(({ isOwn }) => isOwn)).toHaveLength(1);
  });
});

describe("one's own place among few", () => {
  const few = hospitals.filter(({ surgeon }) => "AEHKL".includes(surgeon));
  const eyes = groupsOfEyes(few);

  test("the others stand together, shut, and nothing is counted of them one by one", () => {
    const { rows, sentence, cautions, figures, answer } = ask(
      'funnel(eyes, by: surgeon, target: 8%, source: "agreed", mine: "H")',
      { eyes },
    );
    // A 0 of 47, E 8 of 211, K 29 of 256, L 24 of 360.
    expect(rows.map((row) => row.slice(0, 3))).toEqual([
      ["H", "215", "31"],
      ["the unit without H", "874", "61"],
    ]);
    expect(sentence).toContain("H, 31 failed of 215, lies above the 99.8% limits");
    expect(sentence).not.toMatch(/none above|limits, none/);
    expect([figures.people, figures.above_95]).toEqual([5, null]);
    expect(cautions).toContain("others-together");
    expect(cautions).not.toContain("names-hidden");
    const opened = answer.table.rows.filter((row) => row.some(({ pick }) => pick !== undefined));
    expect(opened).toHaveLength(1);
  });

  test("of observed over expected only one's own place is shown", () => {
    const { rows } = ask('funnel(eyes, by: surgeon, expected: 8%, source: "a", mine: "H")', {
      eyes,
    });
    expect(rows.map(([label]) => label)).toEqual(["H"]);
  });

  test("all stand singly where their names are asked for", () => {
    const { rows } = ask('funnel(eyes, by: surgeon, target: 8%, mine: "H", names: "shown")', {
      eyes,
    });
    expect(rows.map(([label]) => label).join("")).toBe("AEHKL");
  });
});

describe("the funnel of observed over expected", () => {
  test("Poisson limits with the same interpolation, as R has them", () => {
    // 50 eyes at 20% are 10 expected; at 10% with 100 eyes as well: (0.377519, 1.615995).
    const eyes = groupsOfEyes([
      { surgeon: "A", failed: 17, attached: 83 },
      { surgeon: "B", failed: 6, attached: 94 },
    ]);
    const { figures, rows, answer } = ask(
      'funnel(eyes, by: surgeon, expected: 10%, source: "a paper", names: "shown")',
      { eyes },
    );
    const [a, b] = groupsOf(figures);
    expect(a?.size).toBeCloseTo(10, 10);
    expect(a?.lower_95).toBeCloseTo(0.37751879, 7);
    expect(a?.upper_95).toBeCloseTo(1.61599507, 7);
    expect(a?.lower_998).toBeCloseTo(0.12205293, 7);
    expect(a?.upper_998).toBeCloseTo(2.06620008, 7);
    expect([a?.position_95, b?.position_95]).toEqual(["above", "inside"]);
    expect(rows[0]?.slice(0, 5)).toEqual(["A", "100", "17", "10.0", "1.70"]);
    expect(answer.chart?.draw).toBe("funnel");
  });

  test("case mix allowed for by a model of the eyes of others", () => {
    const eyes = groupsOfEyes([
      { surgeon: "A", pvr_grade: "B", failed: 15, attached: 25 },
      { surgeon: "A", pvr_grade: "none", failed: 2, attached: 18 },
      { surgeon: "B", pvr_grade: "B", failed: 6, attached: 9 },
      { surgeon: "B", pvr_grade: "none", failed: 8, attached: 72 },
      { surgeon: "C", pvr_grade: "B", failed: 6, attached: 9 },
      { surgeon: "C", pvr_grade: "none", failed: 9, attached: 71 },
    ]);
    const raw = ask('funnel(eyes, by: surgeon, names: "shown")', { eyes });
    const adjusted = ask('funnel(eyes, pvr_grade, by: surgeon, names: "shown")', { eyes });
    expect(groupsOf(raw.figures)[0]?.position_95).toBe("above");
    expect(groupsOf(adjusted.figures)[0]?.position_95).toBe("inside");
    expect(adjusted.sentence).toContain(
      "Around as many failures as expected from a logistic model on pvr grade, fitted without the person judged (exact limits)",
    );
  });
});

describe("funnel at the edges", () => {
  const some = groupsOfEyes([
    { surgeon: "A", failed: 0, attached: 10 },
    { surgeon: "B", failed: 0, attached: 10 },
  ]);

  test("none failed: no lower limit, nobody flagged", () => {
    const { rows, figures } = ask('funnel(eyes, by: surgeon, target: 13%, names: "shown")', {
      eyes: some,
    });
    expect(rows.map((row) => row[6])).toEqual(["inside", "inside"]);
    expect(figures.below_95).toBe(0);
  });

  test("no eyes whose outcome is known", () => {
    const eyes = groupsOfEyes([{ surgeon: "A", failed: 0, attached: 0, lost: 2 }]);
    const { sentence, answer } = ask("funnel(eyes, by: surgeon, target: 13%)", { eyes });
    expect(sentence).toBe("No eyes whose outcome is known to compare.");
    expect(answer.chart).toBeUndefined();
  });

  test.each([
    ["funnel(eyes, by: surgeon)", "none failed"],
    ["funnel(eyes, by: surgeon, target: 13)", "not a share between 0 and 1"],
    ["funnel(eyes, by: surgeon, target: 13%, expected: 10%)", "around as many as expected"],
    ['funnel(eyes, by: surgeon, target: 13%, mine: "B")', "one other surgeon"],
  ])("%s is refused in words", (working, message) => {
    expect(() => ask(working, { eyes: some })).toThrow(message);
  });
});
