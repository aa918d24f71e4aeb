import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type AalenJohansenInput, aalenJohansen } from "../../src/statistics/aalen-johansen.ts";
import { coxRegression } from "../../src/statistics/cox-regression.ts";
import { fineGray } from "../../src/statistics/fine-gray.ts";
import { type GrayInput, grayTest } from "../../src/statistics/gray-test.ts";
import { incidenceAt } from "../../src/statistics/incidence-at.ts";
import { kaplanMeier } from "../../src/statistics/kaplan-meier.ts";
import { expectClose } from "./close-to.ts";
import { readColumns, readNumbers, readReference } from "./reference-data.ts";

const reference = readReference("competing-risks");
const lungRows = reference.lungData as Record<string, number>[];
const lung = (name: string) => lungRows.map((row) => row[name]!);
const small = () => {
  const { time, event } = readNumbers("competing_small.csv");
  return { time: time!, cause: event! };
};
const example = () => {
  const { time, event } = readNumbers("cmprsk_example.csv");
  return { time: time!, cause: event! };
};
const lungWeeks = () => ({ time: lung("week"), cause: lung("cause") });

describe("Aalen–Johansen", () => {
  it("by hand: 1/12 at 1, then 11/12 * 1/11 more of each cause at 2", () => {
    const curves = aalenJohansen(small());
    expectClose(incidenceAt(curves, 1, 1)!.estimate, 1 / 12);
    expectClose(incidenceAt(curves, 1, 2)!.estimate, 2 / 12);
    expectClose(incidenceAt(curves, 2, 2)!.estimate, 1 / 12);
    expectClose(incidenceAt(curves, 1, 2)!.standardError, Math.sqrt(((1 / 6) * (5 / 6)) / 12));
  });

  it("agrees with R on three data sets: incidence, delta error and Gray's variance", () => {
    for (const [name, data] of [
      ["small", small()],
      ["example", example()],
      ["lung", lungWeeks()],
    ] as const) {
      const { time, incidence, survival, standardError, gray } = reference[name];
      const delta = aalenJohansen(data);
      const process = aalenJohansen({ ...data, variance: "Gray" });
      expectClose(delta.time, time);
      expectClose(delta.survival, survival);
      delta.causes.forEach((curve, k) => {
        expectClose(curve.incidence, incidence[k]);
        expectClose(curve.standardError, standardError[k], 1e-8);
        expectClose(
          process.causes[k]!.standardError.map((s) => s * s),
          gray[k],
          1e-8,
        );
      });
    }
  });

  it("edges: nobody, none failed, everyone failed of one cause, a cause without events", () => {
    expect(aalenJohansen({ time: [], cause: [] }).time).toHaveLength(0);
    expect(incidenceAt(aalenJohansen({ time: [], cause: [] }), 1, 0)).toBeNull();
    const none = aalenJohansen({ time: [3, 4], cause: [0, 0], causes: 2 });
    expect(none.causes.map((curve) => Array.from(curve.incidence))).toEqual([
      [0, 0],
      [0, 0],
    ]);
    expectClose(none.causes[0]!.upper, [1 - 0.025 ** (1 / 2), 1 - 0.025]);
    expectClose(incidenceAt(none, 1, 1)!.upper, 1 - 0.025 ** (1 / 2));
    expect(incidenceAt(none, 1, 9)).toBeNull();
    const all = aalenJohansen({ time: [0, 0, 0], cause: [2, 2, 2] });
    expect(incidenceAt(all, 2, 0)!.estimate).toBe(1);
    expect(incidenceAt(all, 2, 50)!.estimate).toBe(1);
    expect(incidenceAt(all, 1, 0)!.estimate).toBe(0);
  });

  it("refuses by name", () => {
    const refused = (input: Partial<AalenJohansenInput>) =>
      expect(() => aalenJohansen({ ...small(), ...input }));
    refused({ cause: [1] }).toThrow("cause has 1 values, time has 12");
    refused({ causes: 1 }).toThrow("cause[1] is 2; expected a whole number from 0 (censored) to 1");
    refused({ cause: small().cause.map(() => Number.NaN) }).toThrow("cause[0] is NaN");
    refused({ causes: Number.NaN }).toThrow("causes is NaN");
    refused({ causes: Infinity }).toThrow("causes is Infinity");
    refused({ variance: "other" as "Gray" }).toThrow("variance is other");
    expect(() => incidenceAt(aalenJohansen(small()), 3, 1)).toThrow("cause is 3; expected 1 to 2");
  });
});

describe("laws of cumulative incidence", () => {
  const rows = fc.array(
    fc.record({ time: fc.nat(20), cause: fc.nat(3), weight: fc.integer({ min: 1, max: 3 }) }),
    {
      minLength: 1,
      maxLength: 60,
    },
  );
  type Row = { time: number; cause: number; weight: number };
  const of = (list: readonly Row[]) => ({
    time: list.map((row) => row.time),
    cause: list.map((row) => row.cause),
    causes: 3,
  });
  const check = (law: (list: Row[]) => void) =>
    fc.assert(fc.property(rows, law), { seed: 71, numRuns: 150 });

  it("incidences and survival add up to 1 to 1e-12", () => {
    check((list) => {
      const curves = aalenJohansen(of(list));
      curves.survival.forEach((s, j) => {
        const sum = curves.causes.reduce((total, curve) => total + curve.incidence[j]!, s);
        expect(Math.abs(sum - 1)).toBeLessThan(1e-12);
      });
    });
  });

  it("with one cause is 1 - Kaplan–Meier with Greenwood's error", () => {
    check((list) => {
      const event = list.map((row) => Number(row.cause === 1));
      const time = list.map((row) => row.time);
      const curve = kaplanMeier({ time, event });
      const one = aalenJohansen({ time, cause: event }).causes[0]!;
      curve.survival.forEach((s, j) => {
        expectClose(one.incidence[j]!, 1 - s);
        if (s > 0) expectClose(one.standardError[j]!, curve.standardError[j]!, 1e-6);
      });
    });
  });

  it("without censoring is the plain proportion with the binomial error", () => {
    check((list) => {
      const cause = list.map((row) => Math.max(1, row.cause));
      const curves = aalenJohansen({ ...of(list), cause });
      curves.time.forEach((t, j) => {
        const share = list.filter((row, i) => row.time <= t && cause[i] === 1).length / list.length;
        expectClose(curves.causes[0]!.incidence[j]!, share);
        const error = Math.sqrt((share * (1 - share)) / list.length);
        expect(Math.abs(curves.causes[0]!.standardError[j]! - error)).toBeLessThan(1e-7);
      });
    });
  });

  it("weights are replicated rows, and order, units and spells do not matter", () => {
    check((list) => {
      const plain = aalenJohansen(of(list));
      const replicated = aalenJohansen(of(list.flatMap((row) => Array(row.weight).fill(row))));
      const weighted = aalenJohansen({ ...of(list), weight: list.map((row) => row.weight) });
      expectClose(weighted.causes[1]!.incidence, replicated.causes[1]!.incidence);
      expectClose(weighted.causes[1]!.standardError, replicated.causes[1]!.standardError, 1e-6);
      const shuffled = [...list].reverse();
      const other = aalenJohansen({ ...of(shuffled), time: shuffled.map((row) => row.time / 7.3) });
      expectClose(other.causes[0]!.incidence, plain.causes[0]!.incidence);
      const entered = aalenJohansen({ ...of(list), entry: list.map(() => 0) });
      expectClose(entered.causes[0]!.incidence, plain.causes[0]!.incidence);
    });
  });
});

describe("Gray's test", () => {
  it("agrees with R's cuminc: two and three groups, strata, rho, many ties", () => {
    const exampleGroups = readColumns("cmprsk_example.csv");
    const cases: [string, GrayInput][] = [
      ["small", { ...small(), group: readColumns("competing_small.csv").group! }],
      ["example", { ...example(), group: exampleGroups.group! }],
      [
        "exampleStrata",
        { ...example(), group: exampleGroups.group!, strata: exampleGroups.stratum! },
      ],
      ["lung", { ...lungWeeks(), group: lung("ph.ecog") }],
      ["lungStrata", { ...lungWeeks(), group: lung("ph.ecog"), strata: lung("sex") }],
      ["lungRho", { ...lungWeeks(), group: lung("ph.ecog"), rho: 1 }],
      ["lungSex", { ...lungWeeks(), group: lung("sex") }],
    ];
    for (const [name, input] of cases) {
      expectClose(grayTest({ ...input, of: 1 }).chiSquare, reference.gray[name].one, 1e-8);
      expectClose(grayTest({ ...input, of: 2 }).chiSquare, reference.gray[name].two, 1e-8);
    }
  });

  it("has nothing to compare in one group, without rows or without events of the cause", () => {
    for (const input of [
      { time: [1, 2], cause: [1, 2], group: ["a", "a"] },
      { time: [], cause: [], group: [] },
      { time: [1, 2, 3], cause: [2, 0, 2], group: ["a", "b", "a"] },
    ]) {
      expect(grayTest(input)).toMatchObject({ degreesOfFreedom: 0, pValue: 1 });
    }
    const bad = { time: [1], cause: [-1], group: ["a"] };
    expect(() => grayTest(bad)).toThrow("cause[0] is -1");
    const good = { time: [1, 2], cause: [1, 0], group: ["a", "b"] };
    expect(() => grayTest({ ...good, rho: Number.NaN })).toThrow("rho[0] is NaN");
    expect(() => grayTest({ ...good, of: 0 })).toThrow("of is 0; expected the number of a cause");
  });

  it("does not depend on order, on the names of groups or on the unit of time", () => {
    const input = { ...lungWeeks(), group: lung("ph.ecog") };
    const test = grayTest(input);
    const renamed = grayTest({
      time: [...input.time].reverse().map((t) => t / 7.3),
      cause: [...input.cause].reverse(),
      group: [...input.group].reverse().map((g) => ["x", "a", "m"][g]!),
    });
    expectClose(renamed.chiSquare, test.chiSquare, 1e-8);
    expect(renamed.degreesOfFreedom).toBe(2);
  });
});

describe("Fine and Gray's regression", () => {
  const data = () => {
    const { time, cause } = example();
    const { group, stratum } = readColumns("cmprsk_example.csv");
    const covariates = [
      group!.map((g) => (g === "b" ? 1 : 0)),
      stratum!.map((s) => (s === "2" ? 1 : 0)),
    ];
    return { time, cause, covariates };
  };
  const weeks = () => ({ ...lungWeeks(), covariates: [lung("ph.ecog"), lung("sex")] });

  it("by hand: one covariate, a competing failure that stays at risk", () => {
    // Nobody is censored before the last, so every weight is 1. With r = exp(b) the failure at 1 (x = 1)
    // has two of each at risk, that at 3 (x = 0) two of x = 0 and the one of x = 1 who failed of another
    // cause at 2: 1 - r/(r + 1) - r/(r + 2) = 0, so r squared is 2.
    const fit = fineGray({ time: [1, 2, 3, 4], cause: [1, 2, 1, 0], covariates: [[1, 1, 0, 0]] });
    expectClose(fit.coefficients[0]!.estimate, Math.log(Math.SQRT2));
  });

  it("agrees with R on two data sets, one with ties, and for either cause", () => {
    const lungOther = { ...weeks(), of: 2 };
    for (const [name, input, at, values] of [
      ["example", data(), 0.5, [1, 0]],
      ["lung", weeks(), 50, [1, 2]],
      ["lungOther", lungOther, 50, [1, 2]],
    ] as const) {
      const expected = reference.fineGray[name];
      const fit = fineGray(input);
      fit.coefficients.forEach(({ estimate, standardError }, j) => {
        expectClose(estimate, expected.coefficients[j], 1e-7);
        expectClose(standardError, Math.sqrt(expected.covariance[3 * j]), 1e-7);
      });
      expectClose(fit.covariance[1]!, expected.covariance[1], 1e-7);
      expectClose(fit.logLikelihood, expected.logLikelihood, 1e-9);
      expectClose(fit.nullLogLikelihood, expected.nullLogLikelihood, 1e-9);
      expectClose(fit.incidence(at, values), expected.incidence, 1e-7);
    }
  });

  it("by hand: who failed of another cause counts by the chance of being still uncensored", () => {
    // Of the two still followed at 3 one is censored: at 4 the failure of another cause at 2 counts by
    // half. At b = 0 the likelihood is 1/4 at 1 (four at risk) and 1 / (1 + 1/2) at 4.
    const fit = fineGray({ time: [2, 1, 3, 4], cause: [2, 1, 0, 1], covariates: [[1, 0, 0, 1]] });
    expectClose(fit.nullLogLikelihood, Math.log(1 / 4) + Math.log(1 / (1 + 1 / 2)));
  });

  it("errors by patient agree with R's weighted rows, which take censoring as known", () => {
    const { futime, status, age, trt, id } = readNumbers("retinopathy.csv");
    const adult = readColumns("retinopathy.csv").type!.map((type) => Number(type === "adult"));
    const cause = status!.map((s, i) => (s === 0 ? 0 : age![i]! % 4 === 0 ? 2 : 1));
    const rows = { time: futime!, cause, covariates: [trt!, adult] };
    const fit = fineGray({ ...rows, cluster: id! });
    // what the estimate of censoring adds is under a thousandth here
    expectClose(
      fit.coefficients.map((each) => each.standardError),
      reference.fineGrayClustered,
      1e-3,
    );
    const byEye = fineGray(rows).coefficients;
    expect(fit.coefficients[0]!.standardError).toBeLessThan(byEye[0]!.standardError);
    expect(fit.coefficients[1]!.standardError).toBeGreaterThan(byEye[1]!.standardError);
  });

  it("relabelling a covariate changes its sign, renaming the other causes nothing", () => {
    const { time, cause, covariates } = weeks();
    const fit = fineGray({ time, cause, covariates });
    const [ecog, sex] = covariates;
    const other = fineGray({
      time,
      cause: cause.map((each, i) => (each === 2 ? 2 + (i % 3) : each)),
      covariates: [ecog!.map((value) => 2 - value), sex!],
    });
    expectClose(other.coefficients[0]!.estimate, -fit.coefficients[0]!.estimate, 1e-8);
    expectClose(other.coefficients[1]!.standardError, fit.coefficients[1]!.standardError, 1e-7);
    expectClose(other.incidence(50, [1, 2]), fit.incidence(50, [1, 2]), 1e-8);
  });

  it("cause-specific hazards are Cox's, with the other causes as censored", () => {
    for (const [name, { time, cause, covariates }] of [
      ["example", data()],
      ["lung", weeks()],
    ] as const) {
      const event = cause.map((each) => each === 1);
      const fit = coxRegression({ time, event, covariates });
      fit.coefficients.forEach(({ estimate }, j) => {
        expectClose(estimate, reference.causeSpecific[name][j], 1e-7);
      });
    }
  });

  it("without competing causes it is Cox's with Breslow's ties, errors robust by row", () => {
    const { time, cause, covariates } = weeks();
    const only = cause.map((each) => (each === 1 ? 1 : 0));
    const fit = fineGray({ time, cause: only, covariates });
    const cluster = time.map((_, row) => row);
    const cox = coxRegression({
      ...{ time, covariates, cluster, ties: "Breslow" },
      event: only.map((each) => each === 1),
    });
    fit.coefficients.forEach(({ estimate, standardError }, j) => {
      expectClose(estimate, cox.coefficients[j]!.estimate, 1e-8);
      expectClose(standardError, cox.coefficients[j]!.robustStandardError!, 1e-8);
    });
  });

  it("neither the order of rows nor the unit of time matters; every row twice in a cluster", () => {
    const { time, cause, covariates } = weeks();
    const fit = fineGray({ time, cause, covariates });
    const turned = fineGray({
      time: time.map((each) => each * 7).toReversed(),
      cause: cause.toReversed(),
      covariates: covariates.map((column) => column.toReversed()),
    });
    const twice = <T>(column: readonly T[]) => [...column, ...column];
    const doubled = fineGray({
      ...{ time: twice(time), cause: twice(cause), covariates: covariates.map(twice) },
      cluster: twice(time.map((_, row) => row)),
    });
    for (const other of [turned, doubled]) {
      other.coefficients.forEach(({ estimate, standardError }, j) => {
        expectClose(estimate, fit.coefficients[j]!.estimate, 1e-8);
        expectClose(standardError, fit.coefficients[j]!.standardError, 1e-7);
      });
    }
  });

  it("names what has no coefficient, and what moves without end", () => {
    const { time, cause, covariates } = weeks();
    const constant = time.map(() => 3);
    const never = cause.map((each) => (each === 1 ? 0 : 1));
    const names = ["ecog", "constant", "copy"];
    const copy = covariates[0]!.map((value) => 2 * value);
    const fit = fineGray({ time, cause, covariates: [covariates[0]!, constant, copy], names });
    expect(fit.aliased).toEqual(["constant", "copy"]);
    expect(fit.coefficients[1]!.estimate).toBeNaN();
    const monotone = fineGray({ time, cause, covariates: [never], names: ["never"] });
    expect(monotone.infinite).toEqual(["never"]);
    expect(monotone.coefficients[0]!.pValue).toBeNaN();
  });

  it("has the model's own error where the residuals cancel, never none", () => {
    // both rows at risk fail on the same day: the information of a fair coin times two
    const tied = fineGray({ time: [4, 1, 4], cause: [1, 0, 1], covariates: [[-1, 0, 1]] });
    const [x1] = tied.coefficients;
    expect(x1!.estimate).toBe(0);
    expectClose([x1!.standardError, x1!.pValue], [Math.SQRT1_2, 1]);
  });

  it("defines the edges: none, none of the cause, missing values, other lengths", () => {
    const none = fineGray({ time: [], cause: [], covariates: [[]] });
    expect([none.rows, none.events, none.aliased]).toEqual([0, 0, ["x1"]]);
    const other = fineGray({ time: [1, 2], cause: [2, 0], covariates: [[0, 1]] });
    expect([other.events, other.aliased, other.incidence(5, [1])]).toEqual([0, ["x1"], 0]);
    const once = { time: [1, 2], cause: [1, 0] };
    expect(() => fineGray({ ...once, covariates: [[1, Number.NaN]] })).toThrow(/x1/);
    expect(() => fineGray({ ...once, covariates: [[1]] })).toThrow(RangeError);
    expect(() => fineGray({ ...once, cause: [1, Number.NaN], covariates: [] })).toThrow(
      "cause[1] is NaN",
    );
    expect(() => fineGray({ ...once, of: 1.5, covariates: [] })).toThrow("of is 1.5");
    expect(() => fineGray({ ...once, cluster: [1], covariates: [[0, 1]] })).toThrow(/cluster/);
  });
});
