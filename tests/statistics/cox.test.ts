import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { coxSurvival } from "../../src/statistics/cox-baseline.ts";
import { coxFirth } from "../../src/statistics/cox-firth.ts";
import {
  type CoxFit,
  type CoxOptions,
  coxRegression,
} from "../../src/statistics/cox-regression.ts";
import { martingaleResiduals, schoenfeldResiduals } from "../../src/statistics/cox-residuals.ts";
import { scoreResiduals } from "../../src/statistics/cox-score-residuals.ts";
import { coxScoreTest } from "../../src/statistics/cox-score-test.ts";
import { logRank } from "../../src/statistics/log-rank.ts";
import { proportionalHazardsTest } from "../../src/statistics/proportional-hazards-test.ts";
import { ratioOfCoefficient } from "../../src/statistics/regression-table.ts";
import { expectClose, expectPrinted } from "./close-to.ts";
import { followUps } from "./follow-ups.ts";
import { type Reference, readColumns, readNumbers, readReference } from "./reference-data.ts";

const reference = readReference("cox");
const rows = reference.lung as Record<string, number>[];
const column = (name: string) => rows.map((row) => row[name]!);
const freireich = () => ({
  ...followUps("freireich.csv", "time", "status"),
  covariates: [readColumns("freireich.csv").group!.map((g) => Number(g === "placebo"))],
  names: ["placebo"],
});
const lung = (time = "week", names = ["age", "sex", "ph.ecog"]): CoxOptions => ({
  time: column(time),
  event: column("event"),
  covariates: names.map(column),
  names,
});
const retinopathy = (...covariates: number[][]): CoxOptions => ({
  ...followUps("retinopathy.csv", "futime", "status"),
  covariates,
  cluster: readNumbers("retinopathy.csv").id!,
});
const methods = { efron: "Efron", breslow: "Breslow", exact: "exact" } as const;

interface Expected {
  coefficients: number | number[];
  standardErrors: number | number[];
  robust?: number | number[];
  logLikelihood: number;
  nullLogLikelihood: number;
  score: number;
  wald: number;
  ties: keyof typeof methods;
}

function agrees(options: CoxOptions, expected: Expected): void {
  const fit = coxRegression({ ...options, ties: methods[expected.ties] });
  const list = (value: number | number[]) => (Array.isArray(value) ? value : [value]);
  expect(fit.converged).toBe(true);
  expectClose(
    fit.coefficients.map((c) => c.estimate),
    list(expected.coefficients),
    1e-7,
  );
  expectClose(
    fit.coefficients.map((c) => c.standardError),
    list(expected.standardErrors),
    1e-7,
  );
  expectClose(fit.logLikelihood, expected.logLikelihood);
  expectClose(fit.nullLogLikelihood, expected.nullLogLikelihood);
  expectClose(coxScoreTest(fit).statistic, expected.score, 1e-7);
  expectClose(fit.wald.statistic, expected.wald, 1e-6);
  if (expected.robust === undefined) return;
  expectClose(
    fit.coefficients.map((c) => c.robustStandardError),
    list(expected.robust),
    1e-7,
  );
}

describe("Cox regression", () => {
  it("agrees with R's coxph on Freireich 1963 with Efron's, Breslow's and exact ties", () => {
    for (const expected of reference.freireich) agrees(freireich(), expected);
    expectPrinted(coxRegression(freireich()).coefficients[0]!.estimate, "1.57");
  });

  it("by hand: in matched pairs the hazard ratio is 18 to 3, standard error sqrt(1/18 + 1/3)", () => {
    const pairs = { ...freireich(), strata: readNumbers("freireich.csv").pair! };
    const [placebo] = coxRegression(pairs).coefficients;
    expectClose(placebo!.estimate, Math.log(6));
    expectClose(placebo!.standardError, Math.sqrt(1 / 18 + 1 / 3));
    // at no difference each of the 21 pairs is as likely to go either way
    expectClose(coxScoreTest(coxRegression(pairs)).statistic, (18 - 3) ** 2 / 21);
    agrees(pairs, reference.freireichPairs);
  });

  it("agrees with R with many ties, in strata, with delayed entry, weights and clusters", () => {
    for (const expected of reference.lungTies) agrees(lung(), expected);
    agrees(lung("time"), reference.lungDays);
    agrees({ ...lung("week", ["age", "ph.ecog"]), strata: column("sex") }, reference.lungStrata);
    for (const expected of reference.lungEntry) {
      agrees({ ...lung("time"), entry: column("entry") }, expected);
    }
    for (const expected of reference.lungWeight) {
      agrees({ ...lung(), weight: column("weight"), cluster: column("inst") }, expected);
    }
    const all = {
      ...lung("time", ["age", "ph.ecog"]),
      entry: column("entry"),
      weight: column("weight"),
      strata: column("sex"),
      cluster: column("inst"),
    };
    agrees(all, reference.lungAll);
  });

  it("agrees with R on both eyes of 197 patients, clustered and in pairs", () => {
    const { trt, risk } = readNumbers("retinopathy.csv");
    const adult = readColumns("retinopathy.csv").type!.map((type) => Number(type === "adult"));
    for (const expected of reference.retinopathy) {
      agrees(retinopathy(trt!), expected.trt);
      agrees(
        retinopathy(
          trt!,
          adult,
          trt!.map((t, i) => t * adult[i]!),
        ),
        expected.interaction,
      );
      agrees(retinopathy(trt!, adult, risk!), expected.risk);
    }
    const { cluster, ...paired } = retinopathy(trt!);
    agrees({ ...paired, strata: cluster! }, reference.retinopathyPairs);
    agrees(
      { ...freireich(), cluster: readNumbers("freireich.csv").pair! },
      reference.freireichCluster,
    );
  });

  it("with exact ties and one binary covariate has the log-rank test as its score test", () => {
    const { time, event, covariates } = freireich();
    const exact = coxRegression({ ...freireich(), ties: "exact" });
    expectClose(
      coxScoreTest(exact).statistic,
      logRank({ time, event, group: covariates[0]! }).chiSquare,
    );
  });

  it("gives a hazard ratio with limits, robust when there are clusters", () => {
    const { trt } = readNumbers("retinopathy.csv");
    const ratio = ratioOfCoefficient(coxRegression(retinopathy(trt!)).coefficients[0]!, 0.95);
    expectClose(
      [ratio.estimate, ratio.lower, ratio.upper],
      [0.4599500375, 0.3445020215, 0.6140864894],
      1e-7,
    );
    expect(ratio.method).toBe("Wald, robust by cluster");
  });
});

describe("what belongs to a Cox model", () => {
  const model = () => coxRegression(lung());

  it("martingale, score and Schoenfeld residuals agree with R", () => {
    expectClose(martingaleResiduals(model()), reference.martingale, 1e-7);
    for (const [ties, name] of [
      ["Efron", "score"],
      ["Breslow", "breslowScore"],
    ] as const) {
      const tied = coxRegression({ ...lung(), ties });
      const residuals = scoreResiduals(tied.data, tied.evaluation!);
      residuals.forEach((values, c) => {
        const expected = tied.data.order as Int32Array;
        expectClose(
          values,
          Array.from(expected, (row) => reference[name][row][c]),
          1e-5,
        );
      });
    }
    schoenfeldResiduals(model()).sums.forEach((sums, c) => {
      expectClose(
        sums,
        reference.schoenfeld.map((row: number[]) => row[c]),
        1e-6,
      );
    });
  });

  it("the test of proportional hazards agrees with R's cox.zph for four transforms", () => {
    const test = (model: CoxFit, transform?: Parameters<typeof proportionalHazardsTest>[1]) => {
      const { covariates, global } = proportionalHazardsTest(model, transform);
      return [...covariates.map((c) => c.statistic), global.statistic];
    };
    const { zph } = reference;
    expectClose(test(model()), zph.km, 1e-6);
    expectClose(test(model(), "identity"), zph.identity, 1e-6);
    expectClose(test(model(), "rank"), zph.rank, 1e-6);
    expectClose(test(model(), "logarithm"), zph.log, 1e-6);
    expectClose(test(coxRegression({ ...lung(), ties: "Breslow" })), zph.breslow, 1e-6);
    const strata = { ...lung("week", ["age", "ph.ecog"]), strata: column("sex") };
    expectClose(test(coxRegression(strata)), zph.strata, 1e-6);
    expectClose(test(coxRegression({ ...lung("time"), entry: column("entry") })), zph.entry, 1e-6);
    const { trt, risk } = readNumbers("retinopathy.csv");
    const adult = readColumns("retinopathy.csv").type!.map((type) => Number(type === "adult"));
    expectClose(test(coxRegression(retinopathy(trt!, adult, risk!))), zph.retinopathy, 1e-6);
    expectClose(test(coxRegression(freireich())), zph.freireich, 1e-6);
    const exact = coxRegression({ ...freireich(), ties: "exact" });
    expect(() => proportionalHazardsTest(exact)).toThrow(/ties are exact/);
  });

  it("predicted hazards and their errors agree with R's survfit, by stratum too", () => {
    const { time, hazard, error } = reference.baseline;
    for (const [k, x] of [
      [0, [0, 0, 0]],
      [1, [60, 2, 1]],
    ] as const) {
      const [curve] = coxSurvival(model(), x);
      expectClose(curve!.time, time);
      expectClose(
        curve!.hazard,
        hazard.map((row: number[]) => row[k]),
        1e-6,
      );
      const ours = curve!.standardError.map((se, j) => se / curve!.survival[j]!);
      expectClose(
        ours,
        error.map((row: number[]) => row[k]),
        1e-6,
      );
    }
    const strata = coxRegression({ ...lung("week", ["age", "ph.ecog"]), strata: column("sex") });
    const theirs = reference.strataBaseline;
    const curves = coxSurvival(strata, [60, 1]);
    expect(curves.map((curve) => curve.stratum)).toEqual([1, 2]);
    const happened = theirs.events.map((d: number) => d > 0);
    const pick = (values: number[], from: number, to: number) =>
      values.slice(from, to).filter((_, i) => happened[from + i]);
    expectClose(curves[0]!.hazard, pick(theirs.hazard, 0, theirs.strata[0]), 1e-6);
    expectClose(curves[1]!.hazard, pick(theirs.hazard, theirs.strata[0], Infinity), 1e-6);
    expect(() => coxSurvival(model(), [1])).toThrow(/coefficients has 3 values, covariates has 1/);
  });
});

describe("edges of Cox regression", () => {
  it("names constant and collinear covariates, and fits the others as if they were not there", () => {
    const age = column("age");
    const fit = coxRegression({
      ...lung("week", []),
      covariates: [age, age.map(() => 3), age.map((a) => 2 * a - 1), column("sex")],
      names: ["age", "constant", "double", "sex"],
    });
    expect(fit.aliased).toEqual(["constant", "double"]);
    const plain = coxRegression(lung("week", ["age", "sex"]));
    expectClose(fit.coefficients[3]!.estimate, plain.coefficients[1]!.estimate, 1e-8);
    expect(fit.coefficients[1]!.estimate).toBeNaN();
    expect(fit.wald.degreesOfFreedom).toBe(2);
    expectClose(
      coxSurvival(fit, [60, 3, 119, 1])[0]!.hazard,
      coxSurvival(plain, [60, 1])[0]!.hazard,
      1e-7,
    );
  });

  it("recognises a monotone likelihood by name", () => {
    const { time, event, x, z } = columnsOf(reference.mono);
    const fit = coxRegression({
      time: time!,
      event: event!,
      covariates: [x!, z!],
      names: ["x", "z"],
    });
    expect(fit.converged).toBe(false);
    expect(fit.infinite).toEqual(["x"]);
    expect(fit.likelihoodRatio.statistic).toBeGreaterThan(0);
  });

  it("recognises one whose hazards grow beyond any number before the likelihood is flat", () => {
    // made up: the only event is that of the lowest covariate, far below the next
    const time = [36, 2, 1, 11, 27, 24, 25, 16, 19, 9, 33, 4, 7, 12, 29];
    const z = [
      0.87, 0.35, 0.48, -3.21, -0.92, -3.13, -1.18, 0.35, 0.54, -0.13, 1.91, -1.42, -0.47, -1.53,
      -0.4,
    ];
    const fit = coxRegression({ time, event: time.map((t) => Number(t === 11)), covariates: [z] });
    expect([fit.converged, fit.infinite]).toEqual([false, ["x1"]]);
  });

  it("tests by its own error where that of the clusters vanishes", () => {
    const fit = coxRegression({
      time: [2, 3, 2],
      event: [0, 0, 1],
      covariates: [[1.56, -1.81, -0.52]],
      cluster: [0, 0, 1],
    });
    const [{ estimate, standardError, pValue }] = fit.coefficients as [CoxFit["coefficients"][0]];
    expectClose(fit.wald.statistic, (estimate / standardError) ** 2);
    expectClose(fit.wald.pValue, pValue);
  });

  it("names what is lost where another has no end: two groups without an event each", () => {
    const fit = coxRegression({
      time: [9, 8, 7, 6, 1, 5, 4],
      event: [0, 0, 0, 0, 1, 0, 0],
      covariates: [
        [0, 0, 1, 1, 0, 0, 1],
        [0, 0, 0, 0, 1, 0, 0],
      ],
      names: ["without", "all"],
    });
    expect(fit.infinite).toEqual(["without", "all"]);
    expect(fit.converged).toBe(false);
  });

  it("without rows, events or covariates is a null model", () => {
    for (const input of [
      { time: [], event: [], covariates: [[]] },
      { time: [1, 2], event: [0, 0], covariates: [[0, 1]] },
      { time: [1, 2], event: [1, 1], covariates: [] },
    ]) {
      const fit = coxRegression(input);
      expect(fit.likelihoodRatio.pValue).toBe(1);
      expect(fit.infinite).toEqual([]);
    }
    expect(coxRegression({ time: [1, 2], event: [0, 0], covariates: [[0, 1]] }).aliased).toEqual([
      "x1",
    ]);
  });

  it("counts an event on day 0", () => {
    const input = { time: [0, 0, 4, 5, 6], event: [1, 0, 1, 1, 0], covariates: [[1, 0, 0, 1, 0]] };
    const later = { ...input, time: input.time.map((t) => t + 1) };
    expectClose(coxRegression(input).logLikelihood, coxRegression(later).logLikelihood);
  });

  it("refuses by name", () => {
    const refused = (more: Partial<CoxOptions>) =>
      expect(() => coxRegression({ ...freireich(), ...more }));
    refused({ covariates: [[1, 2]] }).toThrow("placebo has 2 values, time has 42");
    refused({ covariates: [Array(42).fill(Number.NaN)] }).toThrow("placebo[0] is NaN");
    refused({ ties: "other" as "Efron" }).toThrow(
      "ties is other; expected Efron, Breslow or exact",
    );
    refused({ ties: "exact", weight: Array(42).fill(2) }).toThrow("weight is given; exact ties");
    refused({ cluster: [1] }).toThrow("cluster has 1 values, time has 42");
    refused({ entry: Array(42).fill(50) }).toThrow("entry[0] is 50; expected a time before 10");
  });
});

describe("Firth's penalised Cox regression", () => {
  it("agrees with R's optimiser on the penalised likelihood, profile limits too", () => {
    const { time, event, x, z } = columnsOf(reference.mono);
    const mono = { time: time!, event: event!, covariates: [x!, z!], names: ["x", "z"] };
    penalisedAgrees(coxFirth(mono), reference.firth.mono);
    penalisedAgrees(coxFirth(freireich()), reference.firth.freireich);
    penalisedAgrees(coxFirth({ ...freireich(), ties: "Breslow" }), reference.firth.breslow);
  });

  it("names a covariate that it cannot fit", () => {
    const constant = { time: [1, 2, 3], event: [1, 1, 0], covariates: [[5, 5, 5]], names: ["oil"] };
    expect(() => coxFirth(constant)).toThrow(/oil is constant or depends/);
  });
});

describe("laws of Cox regression", () => {
  const data = fc.array(
    fc.record({
      time: fc.nat(25),
      event: fc.nat(1),
      x: fc.integer({ min: -3, max: 3 }),
      z: fc.nat(1),
    }),
    { minLength: 25, maxLength: 60 },
  );
  type Row = { time: number; event: number; x: number; z: number };
  const of = (list: readonly Row[]): CoxOptions => ({
    time: list.map((row) => row.time),
    event: list.map((row) => row.event),
    covariates: [list.map((row) => row.x), list.map((row) => row.z)],
  });
  const estimates = (fit: CoxFit) => fit.coefficients.map((c) => c.estimate);
  const check = (law: (list: Row[]) => void) =>
    fc.assert(
      fc.property(data, (list) => {
        const fit = coxRegression(of(list));
        fc.pre(fit.converged && fit.aliased.length === 0);
        law(list);
      }),
      { seed: 81, numRuns: 60 },
    );

  it("order, unit of time, spells and start do not matter", () => {
    check((list) => {
      const fit = coxRegression(of(list));
      const reversed = of([...list].reverse());
      const other = coxRegression({ ...reversed, time: Array.from(reversed.time, (t) => t / 7.3) });
      expectClose(estimates(other), estimates(fit), 1e-6);
      const late = list.filter((row) => row.time > 10);
      const split = coxRegression({
        ...of([
          ...list.map((row) => (row.time > 10 ? { ...row, time: 10, event: 0 } : row)),
          ...late,
        ]),
        entry: [...list.map(() => 0), ...late.map(() => 10)],
      });
      expectClose(estimates(split), estimates(fit), 1e-6);
      const again = coxRegression({ ...of(list), start: estimates(fit) });
      expectClose(estimates(again), estimates(fit), 1e-7);
      expect(again.iterations).toBeLessThanOrEqual(1);
      const { nullLogLikelihood, likelihoodRatio } = fit;
      expectClose(again.nullLogLikelihood, nullLogLikelihood, 1e-12);
      expectClose(again.likelihoodRatio.statistic, likelihoodRatio.statistic, 1e-7);
      const fromAfar = coxRegression({ ...of(list), start: estimates(fit).map(() => 400) });
      expectClose(estimates(fromAfar), estimates(fit), 1e-6);
    });
  });

  it("relabelling and shifting a covariate change its sign and nothing", () => {
    check((list) => {
      const fit = coxRegression(of(list));
      const flipped = list.map((row) => ({ ...row, z: 1 - row.z, x: row.x + 100 }));
      const other = coxRegression(of(flipped));
      expectClose(estimates(other), [estimates(fit)[0]!, -estimates(fit)[1]!], 1e-6);
      expectClose(other.logLikelihood, fit.logLikelihood, 1e-8);
    });
  });

  it("with Breslow's ties a weight of 2 is the row twice", () => {
    check((list) => {
      const weighted = coxRegression({ ...of(list), ties: "Breslow", weight: list.map(() => 2) });
      const twice = coxRegression({ ...of([...list, ...list]), ties: "Breslow" });
      expectClose(estimates(weighted), estimates(twice), 1e-6);
      expectClose(
        weighted.coefficients.map((c) => c.standardError),
        twice.coefficients.map((c) => c.standardError),
        1e-6,
      );
    });
  });

  it("martingale residuals sum to 0, and eyes entered twice have the robust error of once", () => {
    check((list) => {
      const fit = coxRegression({ ...of(list), ties: "Breslow", cluster: list.map((_, i) => i) });
      const residuals = martingaleResiduals(fit);
      expect(Math.abs(residuals.reduce((a, b) => a + b, 0))).toBeLessThan(1e-8);
      const twice = coxRegression({
        ...of([...list, ...list]),
        ties: "Breslow",
        cluster: [...list.keys(), ...list.keys()],
      });
      expectClose(
        twice.coefficients.map((c) => c.robustStandardError),
        fit.coefficients.map((c) => c.robustStandardError),
        1e-6,
      );
    });
  });
});

function columnsOf(list: Record<string, number>[]): Record<string, number[]> {
  return Object.fromEntries(Object.keys(list[0]!).map((k) => [k, list.map((row) => row[k]!)]));
}

function penalisedAgrees(fit: ReturnType<typeof coxFirth>, expected: Reference): void {
  const list = (value: number | number[]) => (Array.isArray(value) ? value : [value]);
  expect(fit.converged).toBe(true);
  expectClose(
    fit.coefficients.map((c) => c.estimate),
    list(expected.coefficients),
    2e-5,
  );
  expectClose(
    fit.coefficients.map((c) => c.standardError),
    list(expected.standardErrors),
    2e-5,
  );
  expectClose(fit.penalisedLogLikelihood, expected.value);
  expectClose(fit.likelihoodRatio.statistic, 2 * (expected.value - expected.zero), 1e-7);
  expectClose(
    fit.coefficients.map((c) => c.chiSquare),
    list(expected.chiSquare),
    1e-6,
  );
  expectClose(
    fit.coefficients.flatMap((c) => [c.lower, c.upper]),
    expected.limits.flat(),
    1e-5,
  );
}
