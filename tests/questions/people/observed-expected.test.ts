import { describe, expect, test } from "vitest";
import { clopperPearsonInterval } from "../../../src/statistics/clopper-pearson-interval.ts";
import { logisticRegression } from "../../../src/statistics/logistic-regression.ts";
import { ask } from "../ask.ts";
import { groupsOfEyes } from "../groups-of-eyes.ts";
import { hospitals } from "./hospitals.ts";

type Figures = Readonly<Record<string, number>>;

function groupsOf(figures: Readonly<Record<string, unknown>>): readonly Figures[] {
  return figures.groups as readonly Figures[];
}

/** One unit of so many eyes beside others that do as the expected rate says. */
function unit(failed: number, eyes: number) {
  return {
    eyes: groupsOfEyes([
      { surgeon: "A", failed, attached: eyes - failed },
      { surgeon: "B", failed: 10, attached: 90 },
      { surgeon: "C", failed: 10, attached: 90 },
    ]),
  };
}

describe("observed over expected, published standardised ratios", () => {
  // O = 4, E = 3.3: SMR 1.212 and exact limits by R's poisson.test; O = 10, E = 6.2 likewise.
  test.each([
    [4, 33, 3.3, 1.2121212, 0.3302622, 3.1035117],
    [10, 62, 6.2, 1.6129032, 0.7734498, 2.9661865],
  ])("%i of %i: Poisson limits", (observed, eyes, expected, ratio, lower, upper) => {
    const working =
      'observed_expected(eyes, by: surgeon, names: "shown", expected: 10%, source: "a paper", limits: "Poisson")';
    const [own] = groupsOf(ask(working, unit(observed, eyes)).figures);
    expect(own?.expected).toBeCloseTo(expected, 10);
    expect(own?.ratio).toBeCloseTo(ratio, 7);
    expect(own?.ratio_lower).toBeCloseTo(lower, 6);
    expect(own?.ratio_upper).toBeCloseTo(upper, 6);
  });

  test("its exact test, as R's poisson.test gives it", () => {
    const working =
      'observed_expected(eyes, by: surgeon, names: "shown", expected: 10%, limits: "Poisson")';
    const [own] = groupsOf(ask(working, unit(10, 62)).figures);
    expect(own?.p).toBeCloseTo(0.1519969, 6);
  });

  test("limits by equal risks are those of Clopper and Pearson over the risk", () => {
    const working = 'observed_expected(eyes, by: surgeon, names: "shown", expected: 10%)';
    const [own] = groupsOf(ask(working, unit(10, 62)).figures);
    const exact = clopperPearsonInterval(10, 62);
    expect(own?.ratio_lower).toBeCloseTo((exact?.lower ?? 0) / 0.1, 9);
    expect(own?.ratio_upper).toBeCloseTo((exact?.upper ?? 0) / 0.1, 9);
  });

  test("none failed, all failed, one eye", () => {
    const working = 'observed_expected(eyes, by: surgeon, names: "shown", expected: 10%)';
    const [none] = groupsOf(ask(working, unit(0, 20)).figures);
    expect([none?.ratio, none?.ratio_lower]).toEqual([0, 0]);
    expect(none?.ratio_upper).toBeCloseTo((1 - 0.025 ** (1 / 20)) / 0.1, 9);
    const [all] = groupsOf(ask(working, unit(20, 20)).figures);
    expect(all?.ratio_upper).toBeCloseTo(10, 12);
    expect(all?.ratio_lower).toBeCloseTo(0.025 ** (1 / 20) / 0.1, 9);
    const [one] = groupsOf(ask(working, unit(1, 1)).figures);
    expect(one?.ratio_lower).toBeCloseTo(0.25, 9);
  });
});

describe("observed_expected on twelve hospitals (BUGS, Surgical)", () => {
  const { figures, rows, answer, cautions, lines } = ask(
    'observed_expected(eyes, by: surgeon, names: "shown")',
    {
      eyes: groupsOfEyes(hospitals),
    },
  );
  const groups = groupsOf(figures);

  test("beta-binomial by maximum likelihood, as R's optim and VGAM give it", () => {
    expect(figures.beta_binomial_alpha).toBeCloseTo(8.253488, 3);
    expect(figures.beta_binomial_beta).toBeCloseTo(99.636851, 2);
    expect(figures.beta_binomial_mean).toBeCloseTo(0.0764988638, 6);
    expect(figures.intraclass).toBeCloseTo(0.0091835517, 6);
  });

  test("shrunken rates beside the raw ones: ranks change", () => {
    const expected = [0.053286, 0.102597, 0.071636, 0.059107, 0.050969, 0.069938];
    expected.push(0.067425, 0.121569, 0.070671, 0.079328, 0.102376, 0.068934);
    groups.forEach((group, position) => {
      expect(group.shrunken).toBeCloseTo(expected[position] ?? Number.NaN, 5);
    });
    expect(groups[0]?.shrunken_lower).toBeCloseTo(0.023805, 5);
    expect(groups[0]?.shrunken_upper).toBeCloseTo(0.093613, 5);
    expect(groups[7]?.shrunken_lower).toBeCloseTo(0.088273, 5);
    expect(groups[0]?.own_rate).toBe(0);
    expect(Number(groups[4]?.shrunken)).toBeLessThan(Number(groups[0]?.shrunken));
    expect(cautions).toContain("shrunken-limits");
  });

  test("expected from the rate of all others, never of the hospital itself", () => {
    // H: 31 of 215; the others 177 of 2599.
    expect(groups[7]?.expected).toBeCloseTo((215 * 177) / 2599, 9);
    expect(groups[7]?.expected_from_eyes).toBe(2599);
  });

  test("rows in the order of codes; places of the worst quarter add up to a quarter of them", () => {
    expect(rows.map(([label]) => label).join("")).toBe("ABCDEFGHIJKL");
    const sum = groups.reduce((total, { worst_quarter = 0 }) => total + worst_quarter, 0);
    expect(sum).toBeCloseTo(3, 6);
    expect(Number(groups[7]?.worst_quarter)).toBeGreaterThan(0.95);
  });

  test("nobody is named in the sentence, and the cautions are there", () => {
    expect(answer.sentence.join("")).not.toMatch(/\b[A-L]\b/);
    expect(cautions).toEqual(
      expect.arrayContaining([
        "comparing-people",
        "several-looks",
        "expected-from-others",
        "several-people",
      ]),
    );
  });

  test("what is drawn opens, and columns that would say nothing are not shown", () => {
    if (answer.chart?.draw !== "effects") throw new Error("no ratios are drawn");
    for (const { pick } of answer.chart.effects.rows) {
      if (pick !== undefined) expect(lines(pick).length).toBeGreaterThan(0);
    }
    const labels = answer.table.columns.map(({ label }) => label);
    expect(labels).not.toContain("too recent");
    expect(labels).toContain("in the worst quarter");
  });

  test("chart and table say the same", () => {
    if (answer.chart?.draw !== "effects") throw new Error("no ratios are drawn");
    expect(answer.chart.effects.rows.map(({ estimate }) => estimate)).toEqual(
      groups.map(({ ratio }) => ratio),
    );
  });
});

describe("observed_expected with risk factors", () => {
  const eyes = groupsOfEyes([
    { surgeon: "A", pvr_grade: "none", failed: 4, attached: 36, lost: 2 },
    { surgeon: "A", pvr_grade: "B", failed: 9, attached: 11 },
    { surgeon: "B", pvr_grade: "none", failed: 8, attached: 72 },
    { surgeon: "B", pvr_grade: "B", failed: 5, attached: 5 },
    { surgeon: "C", pvr_grade: "none", failed: 7, attached: 73 },
    { surgeon: "C", pvr_grade: "B", failed: 4, attached: 6 },
    { surgeon: "C", pvr_grade: null, failed: 1, attached: 2 },
  ]);
  const asked = ask('observed_expected(eyes, pvr_grade, by: surgeon, names: "shown")', { eyes });
  const [a, , c] = groupsOf(asked.figures);

  test("the expected risks are those of a model of the eyes of others", () => {
    // By counts: 15 of 160 without PVR and 9 of 20 with it, in the eyes of B and C.
    expect(a?.expected).toBeCloseTo((40 * 15) / 160 + (20 * 9) / 20, 4);
    expect(a?.mean_risk).toBeCloseTo(((40 * 15) / 160 + 9) / 60, 5);
    const outcome = [
      ...Array.from({ length: 160 }, (_, i) => i < 15),
      ...Array.from({ length: 20 }, (_, i) => i < 9),
    ];
    const pvr = outcome.map((_, i) => (i < 160 ? 0 : 1));
    const { probabilities } = logisticRegression({ outcome, covariates: [pvr] });
    const [without = 0, withPvr = 0] = [probabilities[0], probabilities[170]];
    expect(a?.expected).toBeCloseTo(40 * without + 20 * withPvr, 9);
  });

  test("an eye with no risk is counted apart, never expected at the mean", () => {
    expect(c?.own_eyes).toBe(93);
    expect(asked.rows[2]?.[4]).toBe("90");
    expect(asked.rows[0]?.at(-1)).toBe("2");
    expect(asked.lines("p0:not known")).toHaveLength(2);
    expect(asked.lines("p0:observed")).toHaveLength(13);
  });

  test("one person alone is shown beside the unit without them, whose eyes stay shut", () => {
    const alone = ask('observed_expected(eyes, pvr_grade, by: surgeon, mine: "A")', { eyes });
    expect(alone.rows.map(([label]) => label)).toEqual(["A", "the unit without A"]);
    expect(alone.rows[1]?.slice(1, 4)).toEqual(["183", "25", "13.7% (9.4 – 19.4)"]);
    expect(alone.sentence).toMatch(
      /^A: of 60 eyes whose outcome at 3 months is known, 13 redetached or never lay flat; 12\.8 were expected from a logistic model on pvr grade, fitted without the person judged: observed over expected 1\.02 \(95% Poisson-binomial interval /,
    );
    // What is not known of the others is counted too, and what was used is of the one asked for.
    expect(alone.rows.map((row) => row.at(-1))).toEqual(["2", "0"]);
    expect(alone.answer.used).toBe(60);
    expect(alone.answer.table.rows[1]?.every(({ pick }) => pick === undefined)).toBe(true);
    const texts = JSON.stringify(alone.answer.figures);
    expect(texts).not.toContain('"B"');
  });

  test("with one other surgeon only, that one's results would show: refused", () => {
    const two = groupsOfEyes([
      { surgeon: "A", failed: 4, attached: 36 },
      { surgeon: "B", failed: 4, attached: 36 },
    ]);
    expect(() => ask('observed_expected(eyes, by: surgeon, mine: "A")', { eyes: two })).toThrow(
      "one other surgeon",
    );
  });

  test.each([
    [
      'observed_expected(eyes, pvr_grade, by: surgeon, names: "shown", expected: 13%)',
      "and risk factors",
    ],
    [
      'observed_expected(eyes, by: surgeon, names: "shown", expected: 13)',
      "not a risk between 0 and 1",
    ],
    ['observed_expected(eyes, eye, by: surgeon, names: "shown")', "is the same in all"],
    ['observed_expected(eyes, by: surgeon, mine: "Z")', 'no eye is in the group "Z"'],
  ])("%s is refused in words", (working, message) => {
    expect(() => ask(working, { eyes })).toThrow(message);
  });
});

describe("observed_expected at the edges", () => {
  test("no eyes, and nobody failing", () => {
    const none = ask('observed_expected(eyes, by: surgeon, names: "shown", expected: 10%)', {
      eyes: groupsOfEyes([{ surgeon: "A", failed: 0, attached: 0, lost: 3 }]),
    });
    expect(none.sentence).toBe("No eyes whose outcome is known to compare.");
    expect(() =>
      ask('observed_expected(eyes, by: surgeon, names: "shown")', {
        eyes: groupsOfEyes([
          { surgeon: "A", failed: 0, attached: 10 },
          { surgeon: "B", failed: 0, attached: 10 },
        ]),
      }),
    ).toThrow("none of 10 eyes of others failed");
  });

  test("an eye whose window is still open is not judged, whether it failed or not", () => {
    const eyes = groupsOfEyes([
      { surgeon: "A", failed: 5, attached: 20 },
      { surgeon: "A", failed: 2, attached: 0, operation_date: 1350, redetachment_date: 1360 },
      { surgeon: "B", failed: 5, attached: 20 },
      { surgeon: "C", failed: 5, attached: 20 },
    ]);
    const { rows, cautions, answer } = ask('observed_expected(eyes, by: surgeon, names: "shown")', {
      eyes,
    });
    expect(rows[0]?.[2]).toBe("5");
    expect(rows[0]?.at(-1)).toBe("2");
    expect(cautions).toContain("too-recent");
    expect(answer.leftOut.map(({ count }) => count)).toContain(2);
  });
});

describe("names are hidden unless asked", () => {
  const { answer, rows, cautions, figures } = ask("observed_expected(eyes, by: surgeon)", {
    eyes: groupsOfEyes(hospitals),
  });

  test("no code stands anywhere and no eyes open; rows stand in the order of size", () => {
    const said = JSON.stringify([
      answer.sentence,
      answer.table,
      answer.chart,
      answer.figures,
      answer.cautions,
    ]);
    expect(said).not.toMatch(/"[A-L]"/);
    expect(said).not.toContain('"pick"');
    expect(answer.leftOut.every(({ pick }) => pick === undefined)).toBe(true);
    expect(rows.map(([label]) => label).slice(0, 2)).toEqual(["no. 1", "no. 2"]);
    const sizes = groupsOf(figures).map(({ own_eyes }) => Number(own_eyes));
    expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
    expect(cautions).toContain("names-hidden");
  });

  test("the numbers are those of the same people with their names", () => {
    const named = ask('observed_expected(eyes, by: surgeon, names: "shown")', {
      eyes: groupsOfEyes(hospitals),
    });
    const ratios = (of: typeof figures) => groupsOf(of).map(({ ratio }) => Number(ratio));
    expect(ratios(figures).sort()).toEqual(ratios(named.figures).sort());
  });
});
