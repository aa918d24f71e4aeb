import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { breslowDay } from "../../src/statistics/breslow-day.ts";
import { chiSquareTest } from "../../src/statistics/chi-square-test.ts";
import { clusteredProportion } from "../../src/statistics/clustered-proportion.ts";
import { cochranArmitage } from "../../src/statistics/cochran-armitage.ts";
import { fisherExact, stratifiedExact } from "../../src/statistics/fisher-exact.ts";
import { fisherExactTable } from "../../src/statistics/fisher-table.ts";
import {
  mantelHaenszelDifference,
  mantelHaenszelOddsRatio,
  mantelHaenszelRiskRatio,
  mantelHaenszelTest,
} from "../../src/statistics/mantel-haenszel.ts";
import { mcNemarTest } from "../../src/statistics/mcnemar-test.ts";
import type { ComparisonEstimate } from "../../src/statistics/newcombe-difference.ts";
import { oddsRatio, riskRatio } from "../../src/statistics/ratio-estimates.ts";
import { wilsonInterval } from "../../src/statistics/wilson-interval.ts";
import { expectClose, expectPrinted } from "./close-to.ts";
import { type Reference, readNumbers, readReference } from "./reference-data.ts";
import { tableOf, tables } from "./two-by-two-tables.ts";

const reference = readReference("tables");
const triple = (part: ComparisonEstimate | null) => [part!.estimate, part!.lower, part!.upper];
const counts = (k: readonly number[]) => [
  [k[0]!, k[1]! - k[0]!],
  [k[2]!, k[3]! - k[2]!],
];

describe("Fisher's exact test", () => {
  it("of the lady tasting tea (Fisher 1935): 17/70 one-sided, 34/70 two-sided, by hand", () => {
    const test = fisherExact(tableOf([3, 4, 1, 4]));
    expectClose(test.pGreater, 17 / 70);
    expectClose(test.pTwoSided, 34 / 70);
    expectClose(test.midP, 18 / 70);
    expectPrinted(test.oddsRatio!.estimate, "6.408");
  });

  it("agrees with R's fisher.test on eleven tables, its roots refined", () => {
    for (const row of reference.fishers) {
      const test = fisherExact(tableOf(row.table));
      expectClose(test.pTwoSided, row.p);
      expectClose(test.pLess, row.less);
      expectClose(test.pGreater, row.greater);
      expectClose(triple(test.oddsRatio), row.odds, 1e-8);
      expectClose(triple(fisherExact(tableOf(row.table), 0.99).oddsRatio), row.odds99, 1e-8);
      expectClose(test.oddsRatio!.estimate, row.printed, 1e-3);
    }
  });

  it("limits hold their tails, and the estimate its mean, by the defining equations", () => {
    const test = fisherExact(tableOf([3, 4, 1, 4]));
    // P(X >= 3) at psi: (16 psi^3 + psi^4) / (1 + 16 psi + 36 psi^2 + 16 psi^3 + psi^4)
    const tail = (psi: number) =>
      (16 * psi ** 3 + psi ** 4) / (1 + 16 * psi + 36 * psi ** 2 + 16 * psi ** 3 + psi ** 4);
    expectClose(tail(test.oddsRatio!.lower), 0.025);
    // the estimate solves E X = 3
    const psi = test.oddsRatio!.estimate;
    const weights = [1, 16 * psi, 36 * psi ** 2, 16 * psi ** 3, psi ** 4];
    const sum = weights.reduce((a, b) => a + b, 0);
    expectClose(
      weights.reduce((mean, w, k) => mean + (k * w) / sum, 0),
      3,
    );
  });

  it("with an empty margin has p 1 and no odds ratio", () => {
    for (const table of [
      [0, 5, 0, 6],
      [5, 5, 6, 6],
      [0, 0, 3, 6],
      [0, 0, 0, 0],
    ]) {
      const test = fisherExact(tableOf(table));
      expect([test.pTwoSided, test.pLess, test.pGreater, test.oddsRatio]).toEqual([1, 1, 1, null]);
    }
  });

  it("of larger tables agrees with R; of two by two with the test above", () => {
    for (const { table, p } of reference.bigger) expectClose(fisherExactTable(table), p, 1e-7);
    for (const row of reference.fishers) {
      expectClose(fisherExactTable(counts(row.table)), row.p, 1e-7);
    }
    expect(
      fisherExactTable([
        [3, 4],
        [0, 0],
      ]),
    ).toBe(1);
    expect(fisherExactTable([])).toBe(1);
  });

  it("of a huge table says that it is too large", () => {
    const huge = Array.from({ length: 7 }, (_, r) =>
      Array.from({ length: 7 }, (_, c) => 40 + ((r * c) % 5)),
    );
    expect(fisherExactTable(huge)).toBeNull();
  });
});

describe("chi-square tests", () => {
  it("agree with R: party by sex (Agresti 2007, p. 39) and two by two with Yates", () => {
    const { table, statistic, expected, residuals, p } = reference.party;
    const test = chiSquareTest(table);
    expectClose(test.statistic, statistic);
    expectClose(test.expected.flat(), expected.flat());
    expectClose(test.residuals.flat(), residuals.flat());
    expectClose(test.pValue, p);
    for (const row of reference.fishers) {
      expectClose(chiSquareTest(counts(row.table)).statistic, row.chi);
      expectClose(chiSquareTest(counts(row.table), { yates: true }).statistic, row.yates);
    }
  });

  it("reproduce the P of 0.045 printed for a trial (Hillier 2019), only with Yates' correction", () => {
    // 80.8% of 78 and 93.2% of 73 are 63 and 68
    expectPrinted(chiSquareTest(counts([63, 78, 68, 73]), { yates: true }).pValue, "0.045");
    expectPrinted(chiSquareTest(counts([63, 78, 68, 73])).pValue, "0.025");
  });

  it("drop empty rows and columns, and have p 1 with a single row", () => {
    const test = chiSquareTest([
      [3, 0, 4],
      [0, 0, 0],
      [5, 0, 1],
    ]);
    expect(test.degreesOfFreedom).toBe(1);
    expectClose(
      test.statistic,
      chiSquareTest([
        [3, 4],
        [5, 1],
      ]).statistic,
    );
    expect(chiSquareTest([[3, 4]]).pValue).toBe(1);
    expect(chiSquareTest([]).leastExpected).toBe(0);
    expect(() => chiSquareTest([[1, 2], [3]])).toThrow("row 1 has 1 counts; expected 2");
    expect(() => chiSquareTest([[1, 2.5]])).toThrow("count[0][1] is 2.5");
  });

  it("McNemar agrees with R (presidential approval, Agresti 1990, p. 350)", () => {
    const test = mcNemarTest(150, 86);
    expectClose(test.statistic, reference.mcnemar.plain);
    expectClose(test.correctedStatistic, reference.mcnemar.corrected);
    expectClose(test.exactPValue, reference.mcnemar.exact);
    expectClose(mcNemarTest(63, 16).exactPValue, 9.439221e-8, 1e-6);
    // by hand: 1 against 4 of 5, two-sided 2 * 6 / 32, mid-P less 5 / 32
    expectClose(mcNemarTest(1, 4).exactPValue, 12 / 32);
    expectClose(mcNemarTest(1, 4).midP, 7 / 32);
    expect(mcNemarTest(0, 0)).toMatchObject({ pValue: 1, exactPValue: 1, midP: 1 });
    expect(mcNemarTest(3, 3).exactPValue).toBe(1);
  });

  it("Cochran–Armitage loses nothing by scores that are calendar years, or farther out", () => {
    const groups = [tableOf([1, 3, 7, 40]), tableOf([12, 50, 30, 70])].flatMap((table) => [
      table.first,
      table.second,
    ]);
    const far = cochranArmitage(groups, [1e9, 1e9 + 1, 1e9 + 2, 1e9 + 3]);
    expectClose(far.z, cochranArmitage(groups).z, 1e-12);
  });

  it("Cochran–Armitage agrees with R (Fleiss 1981, p. 139), and needs only spaced scores", () => {
    const { smokers, patients } = readNumbers("smokers.csv");
    const groups = smokers!.map((failed, i) => ({ failed, total: patients![i]! }));
    expectClose(cochranArmitage(groups).chiSquare, reference.trend.plain);
    expectClose(cochranArmitage(groups, [0, 0, 0, 1]).chiSquare, reference.trend.last);
    expectClose(cochranArmitage(groups, [1, 2, 4, 8]).chiSquare, reference.trend.uneven);
    expectClose(cochranArmitage(groups, [10, 20, 30, 40]).z, cochranArmitage(groups).z);
    expect(cochranArmitage(groups, [2, 2, 2, 2]).pValue).toBe(1);
    expect(cochranArmitage([]).pValue).toBe(1);
    expect(
      cochranArmitage([
        { failed: 0, total: 4 },
        { failed: 0, total: 5 },
      ]).pValue,
    ).toBe(1);
    expect(() => cochranArmitage(groups, [1])).toThrow("scores has 1 values, groups has 4");
  });
});

describe("across strata", () => {
  it("exact limits of large and very unlike strata: R 4.2.2, dhyper(log = TRUE) convolved as logarithms", () => {
    const strata = [tableOf([1265, 2529, 160, 1600]), tableOf([1316, 1462, 293, 2925])];
    const test = stratifiedExact(strata);
    expectClose(triple(test.oddsRatio), [31.2967547034823, 27.003838325575, 36.3711936343812]);
    // exp(-1729): under the smallest number there is
    expect(test.pGreater).toBe(0);
    expect(test.pLess).toBe(1);
  });

  it("Mantel–Haenszel, Breslow–Day and exact estimates agree with R", () => {
    for (const row of Object.values<Reference>(reference.mantel)) {
      const strata = row.strata.map(tableOf);
      expectClose(triple(mantelHaenszelOddsRatio(strata)), row.odds);
      expectClose(triple(mantelHaenszelRiskRatio(strata)), row.risk);
      expectClose(triple(mantelHaenszelDifference(strata)), row.difference);
      expectClose(mantelHaenszelTest(strata).statistic, row.uncorrected);
      expectClose(mantelHaenszelTest(strata).correctedStatistic, row.corrected);
      expectClose(breslowDay(strata)!.statistic, row.breslowDay, 1e-7);
      expectClose(breslowDay(strata)!.taroneStatistic, row.tarone, 1e-7);
      const exact = stratifiedExact(strata);
      expectClose(triple(exact.oddsRatio), row.exactOdds, 1e-8);
      expectClose(exact.pTwoSided, row.exactP, 1e-7);
    }
  });

  it("the rabbits' common odds ratio is exactly 7 (Mantel and Haenszel's example)", () => {
    expectClose(mantelHaenszelOddsRatio(reference.mantel.rabbits.strata.map(tableOf))!.estimate, 7);
  });

  it("one stratum is the crude estimate, and two copies leave it where it was", () => {
    fc.assert(
      fc.property(tables, (table) => {
        const crude = [oddsRatio(table), riskRatio(table)];
        const pooled = [mantelHaenszelOddsRatio([table]), mantelHaenszelRiskRatio([table])];
        crude.forEach((estimate, k) => {
          if (estimate === null) return;
          expectClose(triple(pooled[k]!), triple(estimate), 1e-8);
        });
        const once = mantelHaenszelDifference([table]);
        const twice = mantelHaenszelDifference([table, table]);
        expect(twice === null).toBe(once === null);
        if (once === null || twice === null) return;
        expectClose(twice.estimate, once.estimate);
        const empty = tableOf([0, 0, 2, 4]);
        expectClose(triple(mantelHaenszelDifference([table, table, empty])), triple(twice));
      }),
      { seed: 51, numRuns: 100 },
    );
  });

  it("are null, or p 1, where nothing can be estimated", () => {
    const none = [tableOf([0, 5, 0, 5])];
    expect(mantelHaenszelOddsRatio(none)).toBeNull();
    expect(mantelHaenszelRiskRatio([])).toBeNull();
    expect(mantelHaenszelDifference([tableOf([0, 0, 1, 2])])).toBeNull();
    expect(mantelHaenszelTest(none).pValue).toBe(1);
    const all = [tableOf([5, 5, 6, 6])];
    for (const known of [none, all]) expect(mantelHaenszelDifference(known)).toBeNull();
    expect(mantelHaenszelRiskRatio(all)).toBeNull();
    expect(riskRatio(all[0]!)).toBeNull();
    expect(breslowDay([tableOf([1, 5, 2, 5])])).toBeNull();
  });
});

describe("a proportion of eyes in patients", () => {
  it("agrees with R's ratio estimator on both eyes of 197 patients", () => {
    const { status, id } = readNumbers("retinopathy.csv");
    const clustered = clusteredProportion(status!, id!)!;
    expectClose(clustered.estimate, reference.clustered.estimate);
    expectClose(clustered.standardError, reference.clustered.standardError);
    expect(clustered.designEffect).toBeGreaterThan(1);
    expect(clustered.clusters).toBe(197);
  });

  it("with both eyes alike is the proportion of patients; with one eye each nearly Wilson's", () => {
    const patients = [0, 0, 1, 0, 1, 0, 0, 1];
    const eyes = patients.flatMap((x) => [x, x]);
    const id = patients.flatMap((_, i) => [i, i]);
    const clustered = clusteredProportion(eyes, id)!;
    expectClose(clustered.designEffect, (2 * 8) / 7);
    expectClose(clustered.standardError, Math.sqrt(((3 / 8) * (5 / 8)) / 7));
  });

  it("takes each patient as one where all failed in the same share of their eyes", () => {
    for (const [rows, patients] of [
      [3, 7],
      [5, 2],
      [6, 11],
    ] as const) {
      const failed = Array.from({ length: rows * patients }, (_, i) => (i % rows === 0 ? 1 : 0));
      const id = failed.map((_, i) => Math.floor(i / rows));
      const clustered = clusteredProportion(failed, id)!;
      expect([clustered.standardError, clustered.designEffect]).toEqual([0, rows]);
      expect(clustered.upper - clustered.lower).toBeGreaterThan(0.2);
    }
  });

  it("with none failed takes each patient as one, and is null for no eyes", () => {
    const clustered = clusteredProportion([0, 0, 0, 0], ["a", "a", "b", "c"])!;
    expect(clustered.lower).toBe(0);
    expectClose(clustered.upper, wilsonInterval(0, 3)!.upper);
    expect(clusteredProportion([], [])).toBeNull();
    expect(() => clusteredProportion([1], [])).toThrow("cluster has 0 values, failed has 1");
  });
});
