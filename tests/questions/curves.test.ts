import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import type { ChartRequest } from "../../src/charts/chart-request.ts";
import { effectText } from "../../src/charts/effect-intervals.ts";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "./ask.ts";
import { csvCases } from "./csv-cases.ts";
import { eyesOf, groupsOfEyes } from "./groups-of-eyes.ts";

/** Freireich EJ et al., Blood 1963;21:699: weeks in remission on 6-MP and on placebo. */
const freireich = casesValue(
  readCases({
    name: "freireich.csv",
    bytes: new Uint8Array(readFileSync("tests/references/data/freireich.csv")),
  }),
);
const eyes = workedOut('eyes_from(cases, time: time, event: status = 1, unit: "weeks")', {
  cases: freireich,
});

function curves(chart: ChartRequest | undefined) {
  if (chart?.draw !== "attachment curves") throw new Error("no curves are drawn");
  return chart.curves;
}

describe("attachment_curve on published data", () => {
  const { answer, lines } = ask(
    "attachment_curve(eyes, by: group, landmarks: [6 weeks, 10 weeks, 23 weeks])",
    { eyes },
  );

  test("the product-limit estimate on 6-MP, as published", () => {
    const groups = answer.figures.groups as unknown as readonly {
      readonly group: string;
      readonly median: number;
      readonly landmarks: readonly { readonly attached: number; readonly lower: number }[];
    }[];
    const drug = groups.find(({ group }) => group === "6-MP");
    expect(drug?.median).toBe(23);
    expect(groups.find(({ group }) => group === "placebo")?.median).toBe(8);
    const survival = [0.8571428571, 0.7529411765, 0.4481792717];
    const lower = [0.6197179553, 0.5031995108, 0.188052006];
    for (const [position, landmark] of (drug?.landmarks ?? []).entries()) {
      expect(landmark.attached).toBeCloseTo(survival[position] ?? Number.NaN, 9);
      expect(landmark.lower).toBeCloseTo(lower[position] ?? Number.NaN, 9);
    }
  });

  test("sentence, table and chart say the same to the displayed digit", () => {
    const drawn = curves(answer.chart).groups.find(({ label }) => label === "6-MP");
    const last = drawn?.steps.at(-1);
    const row = answer.table.rows.find(([label]) => label?.text === "6-MP");
    const shown = `${(100 * (last?.survival ?? 0)).toFixed(1)}% (`;
    expect(row?.some(({ text }) => text.startsWith(shown))).toBe(true);
    expect(drawn?.steps.map(({ atRisk }) => atRisk)).toEqual([21, 17, 15, 12, 11, 7, 6]);
  });

  test("every step of the curve leads to the eyes that failed there", () => {
    const drawn = curves(answer.chart).groups.find(({ label }) => label === "6-MP");
    expect(drawn?.steps.map(({ pick }) => lines(pick).length)).toEqual([3, 1, 1, 1, 1, 1, 1]);
  });

  test("a value of the curve is read by name", () => {
    const when = workedOut("attachment_curve(eyes, by: group)", { eyes });
    // Pooled over both groups at 10 weeks, R's survfit.
    const at = workedOut("when.at(10 weeks)", { when });
    expect(at.kind === "number" ? at.number : Number.NaN).toBeCloseTo(0.5654315699, 9);
  });

  test("limits on another scale", () => {
    const plain = ask('attachment_curve(eyes, landmarks: [8 weeks], limits: "plain")', { eyes });
    expect(plain.sentence).toContain("95% plain interval");
  });
});

describe("curve_comparison on published data", () => {
  test("log-rank 16.79 with its observed and expected", () => {
    const { figures, rows } = ask("curve_comparison(eyes, by: group)", { eyes });
    expect(figures.chi_square).toBeCloseTo(16.7929409892, 8);
    expect(rows).toEqual([
      ["6-MP", "21", "9", "19.3", "0.47", "reference", "–"],
      ["placebo", "21", "21", "10.7", "1.95", "4.82 (2.15 – 10.8)", "0.0001"],
    ]);
  });

  test("the hazard ratio of Cox's model, Efron's ties, and its check", () => {
    // coxph of the R package survival 3.5-3, and its cox.zph with the Kaplan–Meier transform.
    const { figures, cautions } = ask("curve_comparison(eyes, by: group)", { eyes });
    expect(figures.hazard_ratio).toBeCloseTo(4.816873898, 6);
    expect(figures.hazard_ratio_lower).toBeCloseTo(2.146508213, 6);
    expect(figures.hazard_ratio_upper).toBeCloseTo(10.80931068, 5);
    expect(figures.proportional_hazards_p).toBeCloseTo(0.87981, 4);
    expect(cautions).not.toContain("hazards-not-proportional");
  });

  test("within the pairs it is 6, and turned round its inverse", () => {
    const pairs = ask("curve_comparison(eyes, by: group, strata: pair)", { eyes });
    expect(pairs.figures.hazard_ratio).toBeCloseTo(6, 8);
    const turned = ask('curve_comparison(eyes, by: group, strata: pair, against: "placebo")', {
      eyes,
    });
    expect(turned.figures.hazard_ratio).toBeCloseTo(1 / 6, 9);
  });

  test("over two groups the trend is the test itself; its direction is said", () => {
    const { figures, sentence } = ask("curve_comparison(eyes, by: group, ordered: true)", { eyes });
    expect(figures.trend_p).toBeCloseTo(Number(figures.p), 12);
    expect(sentence).toContain(
      "From 6-MP to placebo more failures than expected (log-rank test for trend, p < 0.0001).",
    );
  });

  test("chart, table and sentence say the same to the displayed digit", () => {
    const { answer, rows, sentence } = ask("curve_comparison(eyes, by: group)", { eyes });
    if (answer.chart?.draw !== "effects") throw new Error("no ratios are drawn");
    const { effects } = answer.chart;
    const drawn = effects.rows.map((row) => effectText(row, effects.scale));
    expect(drawn).toEqual(rows.map((row) => row[5]));
    expect(sentence).toContain(
      "Hazard ratio against 6-MP (95% Wald interval): placebo 4.82 (2.15 to 10.8).",
    );
  });

  test("where two groups have no failure and the third has only failures, no limit is without end", () => {
    const three = groupsOfEyes([
      { technique: "scleral buckle", failed: 0, attached: 5 },
      { technique: "vitrectomy", failed: 0, attached: 4 },
      { technique: "pneumatic retinopexy", failed: 2, attached: 0 },
    ]);
    const { rows, sentence } = ask(
      'curve_comparison(eyes, by: technique, against: "scleral buckle")',
      { eyes: three },
    );
    expect(rows.map((row) => row[5]).join()).not.toContain("∞");
    expect(sentence).toContain("vitrectomy 1.25 (0.01 to 230)");
  });

  test("stratified by the 21 pairs it is (18 - 10.5)^2 / 5.25", () => {
    const pairs = ask("curve_comparison(eyes, by: group, strata: pair)", { eyes });
    expect(pairs.figures.chi_square).toBeCloseTo(7.5 ** 2 / 5.25, 9);
    expect(pairs.sentence).toContain("stratified log-rank test, within pair");
  });

  test("the other weights are named", () => {
    const gehan = ask('curve_comparison(eyes, by: group, test: "Gehan–Wilcoxon")', { eyes });
    expect(gehan.figures.chi_square).toBeCloseTo(13.45785205, 7);
    expect(gehan.sentence).toContain("Gehan–Wilcoxon test");
  });

  test("at one time: three groups of the data lung at 180 days, Klein's test written out in R", () => {
    const lung = {
      eyes: workedOut("eyes_from(cases, time: days, event: dead = 2)", {
        cases: casesValue(csvCases("lung.csv", { time: "days", status: "dead" })),
      }),
    };
    const working = 'curve_comparison(eyes, by: ph_ecog, groups: ["0", "1", "2"], at: 180 days)';
    const { figures, sentence, rows, answer } = ask(working, lung);
    expect(figures.at_chi_square).toBeCloseTo(14.0804989403, 8);
    expect(figures.at_p).toBeCloseTo(8.75908022114e-4, 9);
    expect(figures.at_degrees_of_freedom).toBe(2);
    const attached = (figures.groups as unknown as { readonly attached: number }[]).map(
      (group) => group.attached,
    );
    expect(attached.map((share) => share.toFixed(10))).toEqual([
      "0.8409703504",
      "0.7513793746",
      "0.5274725275",
    ]);
    expect(answer.table.columns[5]?.label).toBe("attached at 180 days (95%)");
    expect(sentence).toContain("Still attached at 180 days (95% intervals): 0 84.1% of 63 eyes (");
    expect(sentence).toContain(
      "Test of equal shares at that time: chi-square 14.08 on 2 degrees of freedom, p = 0.0009.",
    );
    for (const row of rows) expect(sentence).toContain(row[5]?.split(" ")[0]);
    expect(() => ask(working.replace(")", ", within: 90 days)"), lung)).toThrow(
      "the curves end before 180 days",
    );
  });

  test("at one time where a curve stands at 100% there is no test, and that is said", () => {
    const cells = {
      eyes: groupsOfEyes([
        { technique: "one", failed: 0, attached: 30 },
        { technique: "two", failed: 9, attached: 31 },
      ]),
    };
    const { sentence, figures } = ask("curve_comparison(eyes, by: technique, at: 3 months)", cells);
    expect(sentence).toContain(
      "Still attached at 3 months (95% intervals): one 100.0% of 30 eyes (88.4 to ",
    );
    expect(sentence).toContain("There is no test of equal shares at that time");
    expect(figures.at_p).toBeNull();
  });

  test("one group is nothing to compare", () => {
    const { sentence } = ask('curve_comparison(eyes, by: "all")', { eyes });
    expect(sentence).toMatch(/^There is nothing to compare/);
  });
});

describe("curve_comparison at the edges", () => {
  test("a group in which none failed has its ratio by penalised likelihood", () => {
    const cells = {
      eyes: groupsOfEyes([
        { technique: "one", failed: 0, attached: 30 },
        { technique: "two", failed: 9, attached: 31 },
      ]),
    };
    const { sentence, figures } = ask("curve_comparison(eyes, by: technique)", cells);
    expect(sentence).toMatch(
      /against two \(95% Firth interval, profile likelihood\): one 0\.\d\d \(/,
    );
    expect(Number(figures.hazard_ratio_upper)).toBeLessThan(1);
    expect(Number(figures.hazard_ratio)).toBeGreaterThan(0);
  });

  test("hazards that cross are cautioned", () => {
    const failing = (technique: string, days: readonly number[]) =>
      days.map((day, i) =>
        primary({
          patient: `${technique} ${i}`,
          technique,
          redetachment_date: 1000 + day,
          last_seen_date: 1400,
          status_last_seen: "attached",
        }),
      );
    const early = Array.from({ length: 20 }, (_, i) => 1 + i);
    const late = Array.from({ length: 20 }, (_, i) => 200 + i);
    const rows = [
      ...failing("one", [...early, ...late.map((day) => day + 100)]),
      ...failing("two", [...late, ...late.map((day) => day + 20)]),
    ];
    const { cautions } = ask("curve_comparison(eyes, by: technique)", { eyes: eyesOf(rows) });
    expect(cautions).toContain("hazards-not-proportional");
  });

  test("groups that are not compared are counted, and no person is named in the sentence", () => {
    const people = ["A", "B", "C"].map((surgeon) => ({ surgeon, failed: 6, attached: 20 }));
    const cells = { eyes: groupsOfEyes([...people, { surgeon: null, failed: 1, attached: 0 }]) };
    const { sentence, answer, cautions } = ask("curve_comparison(eyes, by: surgeon)", cells);
    expect(sentence).toMatch(
      /^These eyes do not show that the curves of the 3 groups differ \([^A]*\.$/,
    );
    expect(answer.leftOut).toEqual([{ reason: "surgeon not recorded", count: 1, pick: "silent0" }]);
    expect(cautions).toEqual(["comparing-people", "several-comparisons"]);
  });

  test("no eyes, and none failed", () => {
    const none = { eyes: eyesOf([]) };
    expect(ask('curve_comparison(eyes, by: "all")', none).sentence).toBe("No eyes to compare.");
    const spared = groupsOfEyes([
      { technique: "one", failed: 0, attached: 3 },
      { technique: "two", failed: 0, attached: 2 },
    ]);
    const { sentence, answer } = ask("curve_comparison(eyes, by: technique)", { eyes: spared });
    expect(sentence).toBe(
      "There is nothing to compare: no failure is recorded in any group by technique.",
    );
    expect(JSON.stringify(answer)).not.toContain("NaN");
  });
});

describe("groups too small for a curve", () => {
  const rows = (technique: string, number: number) =>
    Array.from({ length: number }, (_, eye) =>
      primary({
        patient: `${technique} ${eye}`,
        technique,
        last_seen_date: 1400,
        status_last_seen: "attached",
      }),
    );
  const small = (...sizes: [number, number]) =>
    ask("attachment_curve(eyes, by: technique)", {
      eyes: workedOut("index_eyes(cases, within: 12 months)", {
        cases: casesValue(casesOf([...rows("vitrectomy", sizes[0]), ...rows("other", sizes[1])])),
      }),
    });
  const drawn = (answer: { readonly chart?: ChartRequest }) =>
    curves(answer.chart).groups.map(({ label }) => label);

  test("stand in the table, are named, and do not stretch the axis", () => {
    const { answer, rows: table, cautions } = small(10, 9);
    expect(drawn(answer)).toEqual(["vitrectomy"]);
    expect(table.map(([label]) => label)).toEqual(["other", "vitrectomy", "all eyes"]);
    expect(cautions).toContain("groups-not-drawn");
  });

  test("are drawn where there is no larger one", () => {
    const { answer, cautions } = small(2, 1);
    expect(drawn(answer)).toEqual(["other", "vitrectomy"]);
    expect(cautions).not.toContain("groups-not-drawn");
  });
});

describe("curves at the edges", () => {
  const from = (rows: Parameters<typeof casesOf>[0]) => ({
    eyes: workedOut("index_eyes(cases, within: 12 months)", { cases: casesValue(casesOf(rows)) }),
  });

  test.each<[string, Parameters<typeof casesOf>[0], RegExp]>([
    ["no eyes", [], /^No eyes to follow\.$/],
    ["one eye, never seen", [primary()], /1 eye followed; none failed\.$/],
    ["one failure on day 0", [primary({ never_attached: true })], /1 failed\.$/],
    [
      "none failed",
      [primary({ last_seen_date: 1400, status_last_seen: "attached" })],
      /At 12 months an estimated 100\.0% of 1 eye were still attached .*; none failed\.$/,
    ],
  ])("%s", (_, rows, expected) => {
    const { sentence, answer } = ask("attachment_curve(eyes)", from(rows));
    expect(sentence).toMatch(expected);
    expect(JSON.stringify(answer)).not.toContain("NaN");
  });
});
