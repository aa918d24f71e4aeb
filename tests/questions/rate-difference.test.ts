import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { effectText } from "../../src/charts/effect-intervals.ts";
import { ask } from "./ask.ts";
import { eyesOf, type GroupOfEyes, groupsOfEyes, rowsOfGroups } from "./groups-of-eyes.ts";

/** Successes of a trial as eyes: [attached, all] of each arm. */
function trial(first: readonly [number, number], second: readonly [number, number]) {
  const arm = (technique: string, [attached, all]: readonly [number, number]) => ({
    technique,
    failed: all - attached,
    attached,
  });
  return { eyes: groupsOfEyes([arm("one", first), arm("two", second)]) };
}

const working = 'rate_difference(eyes, by: technique, groups: ["one", "two"])';
const withTest = (name: string) => `${working.slice(0, -1)}, test: "${name}")`;

describe("rate_difference on published trials", () => {
  // Heimann et al., Ophthalmology 2007;114:2142 (pseudophakic: 71 of 133 and 95 of 132 attached);
  // Hillier et al., Ophthalmology 2019;126:531 (63 of 78 and 68 of 73, from the printed shares).
  // Limits: Newcombe, Statistics in Medicine 1998;17:873, method 10; p-values by R 4.2.2.
  test.each([
    ["pseudophakic", trial([71, 133], [95, 132]), 0.1858623832, 0.0694465169, 0.2953469325],
    ["phakic", trial([133, 209], [132, 207]), 0.0013175231, -0.0904329755, 0.0929871942],
    ["gas", trial([63, 78], [68, 73]), 0.1238145416, 0.0145670652, 0.2320787723],
  ])("%s: the difference with Newcombe's limits", (_, cells, difference, lower, upper) => {
    const { figures } = ask(working, cells);
    expect(figures.difference).toBeCloseTo(difference, 9);
    expect(figures.difference_lower).toBeCloseTo(lower, 9);
    expect(figures.difference_upper).toBeCloseTo(upper, 9);
  });

  test.each([
    ["chi-square", 0.0249, "chi-square test"],
    ["chi-square with Yates' correction", 0.045205, "chi-square with Yates' correction"],
    ["Fisher's exact", 0.030718, "Fisher's exact test"],
  ])("one trial, three p-values, each with its name: %s", (name, p, called) => {
    const { figures, sentence, rows } = ask(withTest(name), trial([63, 78], [68, 73]));
    expect(figures.p).toBeCloseTo(p, 5);
    expect(sentence).toContain(`${called}, p = ${p.toPrecision(2)}`);
    expect(rows[0]?.at(-1)).toContain(called);
  });

  test("small expected counts bring the exact test, with its mid-P", () => {
    // 0 of 61 against 1 of 62 redetached, Hillier's long-term report: Fisher's p is 1.
    const { sentence, figures } = ask(working, trial([61, 61], [61, 62]));
    expect(figures).toMatchObject({ test: "Fisher's exact test", p: 1 });
    expect(sentence).toContain("Fisher's exact test, p = 1.0 (mid-P: p = 0.");
  });

  test("the score interval of Miettinen and Nurminen on request", () => {
    // Newcombe's case a (56 of 70, 48 of 80), as failures: 0.05282971 to 0.33817294 turned round.
    const cells = trial([56, 70], [48, 80]);
    const { figures, sentence } = ask(
      `${working.slice(0, -1)}, interval: "Miettinen–Nurminen")`,
      cells,
    );
    expect(figures.difference_lower).toBeCloseTo(-0.33817294, 7);
    expect(figures.difference_upper).toBeCloseTo(-0.05282971, 7);
    expect(sentence).toContain("95% Miettinen–Nurminen score interval −33.8 to −5.3");
  });

  test("groups turned round turn the difference round", () => {
    const cells = trial([71, 133], [95, 132]);
    const there = ask(working, cells).figures;
    const back = ask('rate_difference(eyes, by: technique, groups: ["two", "one"])', cells).figures;
    expect(back.difference).toBeCloseTo(-Number(there.difference), 12);
    expect(back.difference_lower).toBeCloseTo(-Number(there.difference_upper), 12);
    expect(Number(back.odds_ratio) * Number(there.odds_ratio)).toBeCloseTo(1, 12);
  });
});

describe("rate_difference within strata and over ordered groups", () => {
  // Bickel et al., Science 1975, as R's UCBAdmissions: Mantel–Haenszel by R's mantelhaen.test,
  // Breslow–Day with Tarone's correction by R.
  const departments = readFileSync("tests/references/data/ucbadmissions.csv", "utf8")
    .trim()
    .split("\n")
    .slice(1)
    .map((line) => line.split(","));
  const cell = (admit: string, gender: string, department: string): number =>
    Number(
      departments.find((row) => row.slice(0, 3).join() === `${admit},${gender},${department}`)?.[3],
    );
  const cells = {
    eyes: groupsOfEyes(
      [..."ABCDEF"].flatMap((department) =>
        ["Male", "Female"].map(
          (gender): GroupOfEyes => ({
            technique: gender,
            department,
            failed: cell("Admitted", gender, department),
            attached: cell("Rejected", gender, department),
          }),
        ),
      ),
    ),
  };
  const { figures, sentence, rows, cautions, answer, lines } = ask(
    'rate_difference(eyes, by: technique, groups: ["Male", "Female"], strata: department)',
    cells,
  );

  test("the common odds ratio and its homogeneity, as published", () => {
    expect(figures.common_odds_ratio).toBeCloseTo(0.9046968283, 9);
    expect(figures.common_odds_ratio_lower).toBeCloseTo(0.7719073608, 8);
    expect(figures.common_odds_ratio_upper).toBeCloseTo(1.0603297658, 8);
    expect(figures.common_p).toBeCloseTo(0.2169237, 6);
    expect(figures.homogeneity_chi_square).toBeCloseTo(18.825501252, 7);
    expect(figures.homogeneity_p).toBeCloseTo(0.002071401, 8);
    expect(sentence).toContain(
      "common odds ratio 0.90 (0.77 to 1.06); Mantel–Haenszel test, p = 0.22",
    );
    expect(cautions).toContain("strata-differ");
  });

  test("a row a stratum and one for all, every count leading to its eyes", () => {
    expect(rows.map(([label]) => label)).toEqual([..."ABCDEF", "across strata"]);
    const [first] = answer.table.rows;
    expect(lines(first?.[1]?.pick)).toHaveLength(cell("Admitted", "Male", "A"));
    expect(lines(first?.[4]?.pick)).toHaveLength(
      cell("Admitted", "Female", "A") + cell("Rejected", "Female", "A"),
    );
  });

  test("the trend of Cochran and Armitage", () => {
    // Fleiss 1981, p. 139: smokers 83, 90, 129, 70 of 86, 93, 136, 82; R's prop.trend.test.
    const smokers = [
      [83, 86],
      [90, 93],
      [129, 136],
      [70, 82],
    ].map(([failed = 0, all = 0], i) => ({
      technique: `group ${i}`,
      failed,
      attached: all - failed,
    }));
    const trend = ask("rate_difference(eyes, by: technique, ordered: true)", {
      eyes: groupsOfEyes(smokers),
    });
    expect(trend.figures.trend_p).toBeCloseTo(0.004131897, 8);
    expect(trend.figures.overall_p).toBeGreaterThan(0);
    expect(trend.sentence).toContain(
      "From group 0 to group 3 the share that failed falls in these eyes (Cochran–Armitage test for trend, p = 0.0041).",
    );
    const plain = ask('rate_difference(eyes, by: technique, test: "chi-square")', {
      eyes: groupsOfEyes(smokers),
    });
    expect(plain.figures.overall_p).toBeCloseTo(0.005585477, 8);
  });

  test("more than two groups, or a trend, within strata is refused in words", () => {
    const three = ["a", "b", "c"].map((technique) => ({ technique, failed: 1, attached: 1 }));
    const eyes = { eyes: groupsOfEyes(three) };
    expect(() => ask("rate_difference(eyes, by: technique, strata: eye)", eyes)).toThrow(
      "3 groups cannot be compared within strata at once",
    );
    expect(() =>
      ask(
        'rate_difference(eyes, by: technique, groups: ["a", "b"], strata: eye, ordered: true)',
        eyes,
      ),
    ).toThrow("a trend is not tested within strata");
  });

  test("a stratum with one group only, and eyes of no stratum, are said", () => {
    const eyes = groupsOfEyes([
      { technique: "one", risk: "low", failed: 3, attached: 20 },
      { technique: "two", risk: "low", failed: 6, attached: 20 },
      { technique: "two", risk: "high", failed: 5, attached: 5 },
      { technique: "two", risk: null, failed: 1, attached: 1 },
    ]);
    const found = ask(`${working.slice(0, -1)}, strata: risk)`, { eyes });
    expect(found.cautions).toContain("strata-without-overlap");
    expect(found.answer.leftOut).toEqual([
      { reason: "risk not recorded", count: 2, pick: "stratum0" },
    ]);
    expect(found.lines("stratum0")).toHaveLength(2);
  });
});

describe("rate_difference where eyes are lost", () => {
  const cells = {
    eyes: groupsOfEyes([
      { technique: "scleral buckle", failed: 9, attached: 51, lost: 10 },
      { technique: "vitrectomy", failed: 12, attached: 46, lost: 12 },
      { technique: "pneumatic retinopexy", failed: 2, attached: 3 },
      { technique: null, failed: 1, attached: 0 },
    ]),
  };
  const buckle = 'rate_difference(eyes, by: technique, groups: ["scleral buckle", "vitrectomy"])';
  const { sentence, answer, rows, cautions, lines, figures } = ask(buckle, cells);

  test("the curves' difference leads and the known eyes stand beside it", () => {
    // All failures come before any loss, so the curves are 9/70 and 12/70 by hand.
    expect(figures.curve_difference).toBeCloseTo(-3 / 70, 12);
    expect(figures.difference).toBeCloseTo(9 / 60 - 12 / 58, 12);
    expect(sentence).toBe(
      "Within 12 months (failure: redetachment), by the curves: scleral buckle 12.9% (9 failed of " +
        "70 eyes), vitrectomy 17.1% (12 failed of 70 eyes); scleral buckle less vitrectomy −4.3 " +
        "percentage points (95% Zou–Donner interval −16.8 to 8.3; test on the log-log scale, p = 0.48). " +
        "The interval takes in zero: no difference is shown, which is no proof that there is none. " +
        "Of the eyes whose outcome " +
        "at 12 months is known, scleral buckle 9 of 60 eyes failed (15.0%), vitrectomy 12 of 58 (20.7%); " +
        "scleral buckle less vitrectomy −5.7 percentage points (95% Newcombe hybrid score interval " +
        "−19.6 to 8.3); risk ratio 0.72 (95% Katz interval 0.33 to 1.59); chi-square test, p = 0.42.",
    );
    expect(cautions).toEqual(["techniques-chosen", "many-not-known"]);
  });

  test("chart, table and sentence say the same to the displayed digit", () => {
    if (answer.chart?.draw !== "effects") throw new Error("no differences are drawn");
    const { effects } = answer.chart;
    const drawn = effects.rows.map((row) => effectText(row, effects.scale));
    expect(drawn).toEqual(["−4.3 (−16.8 – 8.3)", "reference"]);
    expect(rows.map((row) => row[7])).toEqual(drawn);
    expect(sentence).toContain(
      "−4.3 percentage points (95% Zou–Donner interval −16.8 to 8.3; test",
    );
  });

  test("eyes of other groups and of none are counted and can be opened", () => {
    expect(answer.leftOut).toEqual([
      { reason: "technique not recorded", count: 1, pick: "silent0" },
      { reason: "technique is pneumatic retinopexy", count: 5, pick: "other0" },
    ]);
    expect(lines("other0")).toHaveLength(5);
    const [first] = answer.table.rows;
    expect([1, 2, 3].map((column) => lines(first?.[column]?.pick).length)).toEqual([70, 9, 60]);
  });

  test("more than two groups stand against the largest, or the one named", () => {
    const all = ask("rate_difference(eyes, by: technique)", cells);
    expect(all.figures.against).toBe("scleral buckle");
    expect(all.cautions).toContain("several-comparisons");
    const named = ask('rate_difference(eyes, by: technique, against: "vitrectomy")', cells);
    expect(named.rows.map((row) => row[5] === "reference")).toEqual([false, false, true]);
  });

  test("a group that is not there is refused with the nearest", () => {
    expect(() =>
      ask('rate_difference(eyes, by: technique, groups: ["vitrectomi", "scleral buckle"])', cells),
    ).toThrow('write "vitrectomy"');
  });

  test("a state read at the last visit has no window and no curve, but a difference", () => {
    const rows = rowsOfGroups([
      { technique: "one", failed: 0, attached: 20 },
      { technique: "two", failed: 0, attached: 14 },
      { technique: "two", failed: 0, attached: 6, status_last_seen: "detached" },
    ]);
    const eyes = eyesOf(rows, 'failure: "detached at last visit"');
    const { sentence: said, figures: of } = ask(working, { eyes });
    expect(of).toMatchObject({ difference: -0.3, curve_difference: null });
    expect(said).toMatch(
      /^To the end of follow-up \(failure: detached at last visit\): one none of 20 eyes failed/,
    );
    expect(() => ask(`${working.slice(0, -1)}, within: 6 months)`, { eyes })).toThrow(
      "has no time",
    );
  });

  test("a comparison of people says so", () => {
    const people = groupsOfEyes([
      { surgeon: "A", failed: 9, attached: 30 },
      { surgeon: "B", failed: 9, attached: 30 },
    ]);
    const { cautions: of } = ask("rate_difference(eyes, by: surgeon)", { eyes: people });
    expect(of).toEqual(["comparing-people"]);
  });
});

describe("the sentence of rate_difference over a grid of answers", () => {
  type Counts = readonly [failed: number, attached: number, lost: number];
  const said = (one: Counts, two: Counts): string => {
    const row = (technique: string, [failed, attached, lost]: Counts) => ({
      technique,
      failed,
      attached,
      lost,
    });
    return ask(working, { eyes: groupsOfEyes([row("one", one), row("two", two)]) }).sentence;
  };

  test.each<[Counts, Counts, RegExp]>([
    [[0, 5, 0], [0, 6, 0], /one none of 5 eyes failed \(0\.0%\), two none of 6 .*nothing to test/],
    [[1, 0, 0], [0, 1, 0], /one 1 of 1 eye failed \(100\.0%\), two none of 1 \(0\.0%\)/],
    [
      [0, 0, 2],
      [0, 0, 3],
      /none of 2 eyes failed, two none of 3; the curves do not reach 12 months/,
    ],
    [[1, 0, 0], [0, 0, 3], /no outcome is known for two, so the difference cannot be estimated\./],
    [[3, 0, 0], [4, 0, 0], /risk ratio 1\.00 \(95% Miettinen–Nurminen score interval 0\.40 to/],
    [
      [0, 30, 0],
      [9, 30, 0],
      /risk ratio 0\.00 .*Fisher's exact test, .* The interval leaves out zero\.$/,
    ],
    [[40, 200, 30], [50, 150, 40], /by the curves: .* Of the eyes whose outcome at 12 m/],
  ])("%j against %j", (one, two, expected) => {
    expect(said(one, two)).toMatch(expected);
    expect(said(one, two)).not.toMatch(/NaN|undefined|null|significan|Infinity/);
  });

  test("one group, or none, is nothing to compare", () => {
    const one = { eyes: groupsOfEyes([{ technique: "one", failed: 1, attached: 3 }]) };
    expect(ask("rate_difference(eyes, by: technique)", one).sentence).toBe(
      "There is nothing to compare: by technique there is only one.",
    );
    const none = { eyes: groupsOfEyes([{ technique: "one", failed: 0, attached: 0 }]) };
    expect(ask('rate_difference(eyes, by: "all")', none).sentence).toBe("No eyes to compare.");
  });
});
