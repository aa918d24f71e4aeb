import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { coxInfluence } from "../../src/statistics/cox-influence.ts";
import { type CoxOptions, coxRegression } from "../../src/statistics/cox-regression.ts";
import { devianceResiduals, martingaleResiduals } from "../../src/statistics/cox-residuals.ts";
import { expectClose } from "./close-to.ts";
import { readReference } from "./reference-data.ts";

const reference = readReference("cox");
const rows = reference.lung as Record<string, number>[];
const column = (name: string) => rows.map((row) => row[name]!);
const lung = (...names: string[]): CoxOptions => ({
  time: column("week"),
  event: column("event"),
  covariates: names.map(column),
  names,
});
const columnsOf = (matrix: number[][]) => matrix[0]!.map((_, c) => matrix.map((row) => row[c]!));

describe("deviance residuals", () => {
  it("agree with R", () => {
    const fit = coxRegression(lung("age", "sex", "ph.ecog"));
    expectClose(devianceResiduals(fit), reference.deviance, 1e-6);
  });

  it("by hand: without covariates, events at 1 and 2 of three", () => {
    // cumulative hazards 1/3 and 1/3 + 1/2: martingale residuals 2/3, 1/6, -5/6
    const fit = coxRegression({ time: [1, 2, 3], event: [1, 1, 0], covariates: [] });
    expectClose(martingaleResiduals(fit), [2 / 3, 1 / 6, -5 / 6]);
    expectClose(devianceResiduals(fit), [
      Math.sqrt(-2 * (2 / 3 + Math.log(1 / 3))),
      Math.sqrt(-2 * (1 / 6 + Math.log(5 / 6))),
      -Math.sqrt(5 / 3),
    ]);
  });
});

describe("what a row does to the coefficients", () => {
  it("agrees with R's dfbeta and dfbetas", () => {
    const influence = coxInfluence(coxRegression(lung("age", "sex", "ph.ecog")));
    expect(influence.map(({ name }) => name)).toEqual(["age", "sex", "ph.ecog"]);
    columnsOf(reference.dfbeta).forEach((expected, c) => {
      // R stops its iterations a little earlier
      expectClose(influence[c]!.change, expected, 1e-5);
      expectClose(influence[c]!.inErrors, columnsOf(reference.dfbetas)[c]!, 1e-5);
    });
  });

  it("agrees with R under delayed entry, weights and strata", () => {
    const fit = coxRegression({
      ...lung("age", "ph.ecog"),
      time: column("time"),
      entry: column("entry"),
      weight: column("weight"),
      strata: column("sex"),
    });
    columnsOf(reference.weightedDfbeta).forEach((expected, c) => {
      expectClose(coxInfluence(fit)[c]!.change, expected, 1e-5);
    });
  });

  it("is what leaving the row out does, to a hundredth of a standard error", () => {
    const all = lung("age", "sex");
    const fit = coxRegression(all);
    const [age] = coxInfluence(fit);
    for (let row = 0; row < rows.length; row += 15) {
      const without = <T>(list: ArrayLike<T>) => Array.from(list).filter((_, i) => i !== row);
      const left = coxRegression({
        time: without(all.time),
        event: without(all.event as ArrayLike<number>),
        covariates: all.covariates.map(without),
      });
      const { estimate, standardError } = fit.coefficients[0]!;
      const moved = (estimate - left.coefficients[0]!.estimate) / standardError;
      expect(Math.abs(moved - age!.inErrors[row]!)).toBeLessThan(0.01);
    }
  });

  it("sums to 0, and its squares to the robust variance", () => {
    const data = fc.array(
      fc.record({
        time: fc.nat(20),
        event: fc.nat(1),
        x: fc.integer({ min: -3, max: 3 }),
        z: fc.nat(1),
      }),
      { minLength: 25, maxLength: 50 },
    );
    fc.assert(
      fc.property(data, (list) => {
        const fit = coxRegression({
          time: list.map((row) => row.time),
          event: list.map((row) => row.event),
          covariates: [list.map((row) => row.x), list.map(() => 2), list.map((row) => row.z)],
          cluster: list.map((_, i) => i),
        });
        fc.pre(fit.converged && fit.aliased.length === 1);
        const influence = coxInfluence(fit);
        expect(influence.map(({ name }) => name)).toEqual(["x1", "x3"]);
        for (const { name, change } of influence) {
          expect(Math.abs(change.reduce((a, b) => a + b, 0))).toBeLessThan(1e-7);
          const { robustStandardError } = fit.coefficients.find((each) => each.name === name)!;
          expectClose(Math.hypot(...change), robustStandardError!, 1e-6);
        }
      }),
      { seed: 83, numRuns: 60 },
    );
  });

  it("is refused with exact ties", () => {
    const exact = coxRegression({ ...lung("age"), ties: "exact" });
    expect(() => coxInfluence(exact)).toThrow(/ties are exact/);
    expect(() => devianceResiduals(exact)).toThrow(/ties are exact/);
  });
});
