import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import type { ChartRequest } from "../../src/charts/chart-request.ts";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "./ask.ts";

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
      ["6-MP", "21", "9", "19.3", "0.47"],
      ["placebo", "21", "21", "10.7", "1.95"],
    ]);
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

  test("one group is nothing to compare", () => {
    const { sentence } = ask('curve_comparison(eyes, by: "all")', { eyes });
    expect(sentence).toMatch(/^There is nothing to compare/);
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
