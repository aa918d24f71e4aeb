/** Numbers as they are printed in sources that anybody can open, beside those checked with their function. */
import { describe, expect, it } from "vitest";
import { chiSquareTest } from "../../src/statistics/chi-square-test.ts";
import { concordance } from "../../src/statistics/concordance.ts";
import { coxRegression } from "../../src/statistics/cox-regression.ts";
import { coxScoreTest } from "../../src/statistics/cox-score-test.ts";
import { fisherExactTable } from "../../src/statistics/fisher-table.ts";
import { kaplanMeier } from "../../src/statistics/kaplan-meier.ts";
import { logRank } from "../../src/statistics/log-rank.ts";
import { scoreDifference } from "../../src/statistics/miettinen-nurminen.ts";
import { proportionalHazardsTest } from "../../src/statistics/proportional-hazards-test.ts";
import { rocArea } from "../../src/statistics/roc-area.ts";
import { survivalAt } from "../../src/statistics/survival-at.ts";
import { medianSurvival, survivalQuantile } from "../../src/statistics/survival-quantile.ts";
import { expectPrinted } from "./close-to.ts";
import { followUps } from "./follow-ups.ts";
import { readColumns, readNumbers } from "./reference-data.ts";
import { tableOf } from "./two-by-two-tables.ts";

const aml = () => followUps("aml.csv", "time", "status");
const lungColumns = readNumbers("lung.csv");

/** Lung cancer follow-up of the rows that satisfy a condition, with named columns. */
function lung(isUsed: (row: number) => boolean, names: readonly string[] = []) {
  const { time, event } = followUps("lung.csv", "time", "status", "2");
  const pick = (values: readonly number[]) => values.filter((_, row) => isUsed(row));
  return {
    time: pick(time),
    event: pick(event),
    covariates: names.map((name) => pick(lungColumns[name]!)),
    names,
  };
}

describe("the documents of R's package survival print", () => {
  it("Kaplan–Meier of all 23 in the AML data (vignette on concordance)", () => {
    const curve = kaplanMeier(aml());
    const printed = { 5: "0.913", 8: "0.826", 9: "0.783", 12: "0.739", 13: "0.696" };
    for (const [week, survival] of Object.entries(printed)) {
      expectPrinted(survivalAt(curve, Number(week))!.estimate, survival);
    }
  });

  it("the log-rank test of the AML data (main vignette): 10.69 and 7.31 expected, 3.4", () => {
    const test = logRank({ ...aml(), group: readColumns("aml.csv").x! });
    expectPrinted(test.expected[0]!, "10.69");
    expectPrinted(test.expected[1]!, "7.31");
    expectPrinted(test.chiSquare, "3.4");
  });

  it("median survival in lung cancer by sex and performance (main vignette)", () => {
    const printed = [
      [1, [353, 239, 166, 118]],
      [2, [705, 450, 239]],
    ] as const;
    for (const [sex, medians] of printed) {
      medians.forEach((median, ecog) => {
        const isUsed = (row: number) =>
          lungColumns.sex![row] === sex && lungColumns["ph.ecog"]![row] === ecog;
        const curve = kaplanMeier(lung(isUsed));
        expect(medianSurvival(curve).estimate).toBe(median);
        expect(survivalQuantile(curve, 0.5).estimate).toBe(median);
      });
    }
  });

  const model = () =>
    lung((row) => !Number.isNaN(lungColumns["wt.loss"]![row]!), ["age", "sex", "wt.loss"]);

  it("Cox's regression in lung cancer on age, sex and weight loss (main vignette)", () => {
    const fit = coxRegression(model());
    expect([fit.rows, fit.events]).toEqual([214, 152]);
    const printed = [
      ["0.0200882", "0.0096644"],
      ["-0.5210319", "0.1743541"],
      ["0.0007596", "0.0061934"],
    ] as const;
    printed.forEach(([estimate, error], c) => {
      expectPrinted(fit.coefficients[c]!.estimate, estimate);
      expectPrinted(fit.coefficients[c]!.standardError, error);
    });
    expectPrinted(fit.likelihoodRatio.statistic, "14.67");
    expectPrinted(fit.wald.statistic, "13.98");
    expectPrinted(coxScoreTest(fit).statistic, "14.24");
  });

  it("concordance of that model: 0.612 with an error of 0.027", () => {
    const { time, event, covariates } = model();
    const fit = coxRegression(model());
    const score = time.map((_, row) =>
      covariates.reduce((sum, x, c) => sum + x[row]! * fit.coefficients[c]!.estimate, 0),
    );
    const { estimate, standardError } = concordance({ time, event, score })!;
    expectPrinted(estimate, "0.612");
    expectPrinted(standardError, "0.027");
  });

  it("the test of proportional hazards of that model: 0.5077, 2.5489, 0.0144, global 3.0051", () => {
    const { covariates, global } = proportionalHazardsTest(coxRegression(model()));
    ["0.5077", "2.5489", "0.0144"].forEach((printed, c) => {
      expectPrinted(covariates[c]!.statistic, printed);
    });
    expectPrinted(global.statistic, "3.0051");
  });
});

describe("papers and books print", () => {
  it("score limits of a difference (Newcombe, Stat Med 1998;17:873, table II, cases a and b)", () => {
    for (const [table, lower, upper] of [
      [[56, 70, 48, 80], "0.0528", "0.3382"],
      [[9, 10, 3, 10], "0.1700", "0.8406"],
    ] as const) {
      const limits = scoreDifference(tableOf(table))!;
      expectPrinted(limits.lower, lower);
      expectPrinted(limits.upper, upper);
    }
  });

  it("chi-square of party by sex, 30.1 (Agresti 2007, p. 39)", () => {
    const party = [
      [762, 327, 468],
      [484, 239, 477],
    ];
    expectPrinted(chiSquareTest(party).statistic, "30.1");
  });

  it("Fisher's exact test of job satisfaction by income, p 0.7827 (Agresti 2002, p. 57)", () => {
    const satisfaction = [
      [1, 3, 10, 6],
      [2, 3, 10, 7],
      [1, 6, 14, 12],
      [0, 1, 9, 11],
    ];
    expectPrinted(fisherExactTable(satisfaction)!, "0.7827");
  });

  it("the area of 0.893 in 109 rated images (Hanley and McNeil 1982; counts from memory)", () => {
    // ratings 1 to 5: 33 6 6 11 2 of the normal, 3 2 2 11 33 of the abnormal
    const rated = [
      [33, 6, 6, 11, 2],
      [3, 2, 2, 11, 33],
    ];
    const outcome = rated.flatMap((counts, y) => counts.flatMap((n) => new Array(n).fill(y)));
    const rating = rated.flatMap((counts) => counts.flatMap((n, k) => new Array(n).fill(k + 1)));
    expect(outcome).toHaveLength(109);
    expectPrinted(rocArea(outcome, rating)!.estimate, "0.893");
  });
});
