import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { logisticFirth, logisticFirthEstimates } from "../../src/statistics/logistic-firth.ts";
import { logisticProfile } from "../../src/statistics/logistic-profile.ts";
import {
  type LogisticFit,
  type LogisticOptions,
  logisticRegression,
} from "../../src/statistics/logistic-regression.ts";
import {
  standardisedDifference,
  standardisedRate,
} from "../../src/statistics/regression-standardisation.ts";
import { expectClose, expectPrinted } from "./close-to.ts";
import { type Reference, readNumbers, readReference } from "./reference-data.ts";

const reference = readReference("logistic");
const rows = reference.data as Record<string, number>[];
const column = (name: string) => rows.map((row) => row[name]!);
const risks = ["age", "lwt", "race2", "race3", "smoke", "ptl", "ht", "ui"];
const births = (...names: string[]) => ({
  outcome: column("low"),
  covariates: names.map(column),
  names,
});
const endometrial = () => {
  const { HG, NV, PI, EH } = readNumbers("endometrial.csv");
  return { outcome: HG!, covariates: [NV!, PI!, EH!], names: ["NV", "PI", "EH"] };
};
const estimates = (fit: LogisticFit) => fit.coefficients.map((c) => c.estimate);
const errors = (fit: LogisticFit) => fit.coefficients.map((c) => c.standardError);
const robust = (fit: LogisticFit) => fit.coefficients.map((c) => c.robustStandardError);

function agrees(options: LogisticOptions, expected: Reference): void {
  const fit = logisticRegression(options);
  expect(fit.converged).toBe(true);
  expectClose(estimates(fit), expected.coefficients, 1e-7);
  expectClose(errors(fit), expected.standardErrors, 1e-7);
  expectClose(fit.logLikelihood, expected.logLikelihood);
  expectClose(fit.nullLogLikelihood, expected.null);
  if (expected.robust !== undefined) expectClose(robust(fit), expected.robust, 1e-7);
}

describe("logistic regression", () => {
  it("by hand: one binary covariate gives the log odds ratio with Woolf's error", () => {
    const outcome = [1, 1, 1, 0, 0, 1, 0, 0, 0, 0, 0];
    const group = [1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0];
    const fit = logisticRegression({ outcome, covariates: [group] });
    expectClose(estimates(fit), [Math.log(1 / 5), Math.log((3 * 5) / (2 * 1))]);
    expectClose(errors(fit)[1]!, Math.sqrt(1 / 3 + 1 / 2 + 1 / 1 + 1 / 5), 1e-8);
  });

  it("prints the log-likelihood of Hosmer and Lemeshow 1989, table 2.2 as R recomputes it", () => {
    const fit = logisticRegression(births("age", "lwt", "race2", "race3", "ftv"));
    expectPrinted(fit.logLikelihood, "-111.286");
  });

  it("agrees with R's glm on births, with weights, and clustered by patient on eyes", () => {
    agrees({ ...births(...risks), cluster: column("id") }, reference.full);
    expectClose(logisticRegression(births(...risks)).akaike, reference.full.aic);
    agrees(births("lwt", "race2", "race3"), reference.small);
    const weighted = { ...births("age", "smoke"), weight: column("weight"), cluster: column("id") };
    agrees(weighted, reference.weighted);
    const { status, trt, id } = readNumbers("retinopathy.csv");
    agrees({ outcome: status!, covariates: [trt!], cluster: id! }, reference.retinopathy);
  });

  it("profile limits agree with R's confint", () => {
    const profile = logisticProfile(births(...risks));
    const limits = profile.flatMap((c) => [c.lower, c.upper]);
    // R finds them by splines on a grid of the profile, good to about 1e-4
    expectClose(limits, reference.full.profile.flat(), 2e-3);
  });

  it("profile limits by definition: the likelihood there has fallen by half the quantile", () => {
    const fit = logisticRegression(births("age", "smoke"));
    const [, , smoke] = logisticProfile(births("age", "smoke"));
    for (const value of [smoke!.lower, smoke!.upper]) {
      const offset = column("smoke").map((x) => x * value);
      const held = logisticRegression({ ...births("age"), offset });
      expectClose(fit.logLikelihood - held.logLikelihood, 3.841458820694124 / 2, 1e-7);
    }
  });
});

describe("edges of logistic regression", () => {
  it("recognises separation by name, and leaves the other covariates usable", () => {
    const fit = logisticRegression(endometrial());
    expect(fit.infinite).toEqual(["NV"]);
    expect(fit.converged).toBe(false);
    // Heinze and Schemper 2002: without NV's infinite part
    expectClose(estimates(fit)[2]!, -0.0421834, 1e-5);
    expectClose(-2 * fit.logLikelihood, 55.393261, 1e-7);
    const profile = logisticProfile(endometrial());
    expect(profile[1]!.upper).toBe(Infinity);
    expect(profile[1]!.lower).toBeGreaterThan(0);
    expect(() => standardisedRate(fit, endometrial().covariates)).toThrow(/NV infinite/);
  });

  it("goes all the way where the outcome is separated by next to nothing", () => {
    const x = [-0.686, 0.996, 1.42, 0.715, 1.254, 1.426, -1.297];
    const fit = logisticRegression({ outcome: x.map((v) => Number(v > 1.42)), covariates: [x] });
    expect(fit.infinite).toEqual(["intercept", "x1"]);
    // by hand: separated, the likelihood rises to 1, and one of seven failed
    expectClose(fit.likelihoodRatio.statistic, -2 * (Math.log(1 / 7) + 6 * Math.log(6 / 7)), 1e-4);
  });

  it("Firth's estimates alone are the published ones of separated data", () => {
    // Heinze and Schemper, Statistics in Medicine 2002;21:2409: 79 cases of endometrial cancer
    const { estimates: slopes, converged } = logisticFirthEstimates(endometrial());
    expect(converged).toBe(true);
    expectClose(Array.from(slopes).slice(1), [2.9292733532, -0.0347517599, -2.6041639253], 1e-8);
  });

  it("with none or all failed has an infinite intercept", () => {
    const none = logisticRegression({ outcome: [0, 0, 0], covariates: [] });
    expect(none.infinite).toEqual(["intercept"]);
    const all = logisticRegression({ outcome: [1, 1], covariates: [] });
    expect(all.infinite).toEqual(["intercept"]);
  });

  it("names constant and collinear covariates", () => {
    const age = column("age");
    const fit = logisticRegression({
      outcome: column("low"),
      covariates: [age, age.map(() => 1), age.map((a) => 3 - a), column("smoke")],
      names: ["age", "unit", "minus", "smoke"],
    });
    expect(fit.aliased).toEqual(["unit", "minus"]);
    const plain = logisticRegression(births("age", "smoke"));
    expectClose(estimates(fit)[4]!, estimates(plain)[2]!, 1e-8);
    const profiled = logisticProfile({
      outcome: column("low"),
      covariates: [age, age.map(() => 1)],
    });
    expect(profiled[2]!.lower).toBeNaN();
  });

  it("takes no clustered error that vanishes, as of one patient, for certainty: limits are by the model's own", () => {
    const eyes = { outcome: [1, 0, 0, 1, 0, 1], covariates: [[0, 0, 0, 1, 1, 1]] };
    const alone = logisticRegression({ ...eyes, cluster: eyes.outcome.map(() => 7) });
    const plain = logisticRegression(eyes);
    alone.coefficients.forEach((coefficient, c) => {
      expect(coefficient.robustStandardError).toBeLessThan(1e-9);
      const { z, pValue, lower, upper } = plain.coefficients[c]!;
      expectClose(
        [coefficient.z, coefficient.pValue, coefficient.lower, coefficient.upper],
        [z, pValue, lower, upper],
      );
    });
    const rate = standardisedRate(alone, [eyes.outcome.map(() => 1)]);
    const expected = standardisedRate(plain, [eyes.outcome.map(() => 1)]);
    expectClose([rate.standardError, rate.lower], [expected.standardError, expected.lower]);
  });

  it("without rows says nothing, and refuses by name", () => {
    expect(logisticRegression({ outcome: [], covariates: [[]] }).rows).toBe(0);
    const refused = (more: Partial<LogisticOptions>) =>
      expect(() => logisticRegression({ ...births("age"), ...more }));
    refused({ covariates: [[1]] }).toThrow("age has 1 values, outcome has 189");
    refused({ covariates: [column("age").map(() => Infinity)] }).toThrow("age[0] is Infinity");
    refused({ outcome: column("age") }).toThrow("event[0] is 19; expected 1, 0, true or false");
    refused({ cluster: [1] }).toThrow("cluster has 1 values, outcome has 189");
    refused({ offset: column("age").map(() => Number.NaN) }).toThrow("offset[0] is NaN");
  });
});

describe("Firth's penalised logistic regression", () => {
  it("in a saturated two by two table adds a half to each cell, by hand", () => {
    // 0 of 22 against 7 of 363
    const outcome = [...Array(22).fill(0), ...Array(7).fill(1), ...Array(356).fill(0)];
    const group = outcome.map((_, i) => Number(i < 22));
    const fit = logisticFirth({ outcome, covariates: [group] });
    const difference = Math.log(0.5 / 22.5) - Math.log(7.5 / 356.5);
    expectClose(
      fit.coefficients.map((c) => c.estimate),
      [Math.log(7.5 / 356.5), difference],
      1e-8,
    );
  });

  it("agrees with R written out, and with Heinze and Schemper 2002 as far as their figures are remembered", () => {
    const fit = logisticFirth(endometrial());
    ["3.77", "2.93", "-0.03", "-2.60"].forEach((printed, j) => {
      expectPrinted(fit.coefficients[j]!.estimate, printed);
    });
    penalisedAgrees(endometrial(), reference.firth.endometrial);
    penalisedAgrees(births("age", "smoke", "ht"), reference.firth.birthwt);
  });

  it("is finite where nobody or everybody failed, and names what it cannot fit", () => {
    const fit = logisticFirth({ outcome: [0, 0, 0, 0], covariates: [] });
    expectClose(fit.coefficients[0]!.estimate, Math.log(0.5 / 4.5), 1e-8);
    // penalised log-likelihood 4 ln(1 - p) + ln(4 p (1 - p)) / 2
    const value = (b: number) =>
      -4.5 * Math.log1p(Math.exp(b)) + 0.5 * (b - Math.log1p(Math.exp(b)));
    const [at] = fit.coefficients;
    const fall = (b: number) => value(at!.estimate) - value(b);
    expectClose([fall(at!.lower), fall(at!.upper)], [1.920729410347062, 1.920729410347062], 1e-7);
    const constant = { outcome: [0, 1, 1], covariates: [[2, 2, 2]], names: ["oil"] };
    expect(() => logisticFirth(constant)).toThrow(/oil is constant/);
  });

  function penalisedAgrees(input: LogisticOptions & { level?: number }, expected: Reference): void {
    const fit = logisticFirth(input);
    expect(fit.converged).toBe(true);
    expectClose(
      fit.coefficients.map((c) => c.estimate),
      expected.coefficients,
      1e-7,
    );
    expectClose(
      fit.coefficients.map((c) => c.standardError),
      expected.standardErrors,
      1e-7,
    );
    expectClose(
      fit.coefficients.flatMap((c) => [c.lower, c.upper]),
      expected.limits.flat(),
      1e-6,
    );
    expectClose(
      fit.coefficients.map((c) => c.chiSquare),
      expected.chiSquare,
      1e-7,
    );
    expectClose(fit.penalisedLogLikelihood, expected.value);
  }
});

describe("covariates far from 0, as calendar years are", () => {
  const list = Array.from({ length: 60 }, (_, i) => ({
    year: 2019 + (i % 7),
    age: 55 + ((i * 13) % 31),
    failed: (i * i + 3 * i) % 7 < (i % 7) / 2 ? 1 : 0,
  }));
  const outcome = list.map(({ failed }) => failed);
  const by = (from: number) => ({
    outcome,
    covariates: [list.map(({ year }) => year - from), list.map(({ age }) => age)],
  });

  it("have the fit that they have about their mean, robust errors and the intercept there included", () => {
    const cluster = list.map((_, i) => Math.floor(i / 2));
    const far = logisticRegression({ ...by(0), cluster });
    const near = logisticRegression({ ...by(2022), cluster });
    expect([far.converged, far.infinite, far.aliased]).toEqual([true, [], []]);
    expectClose(far.logLikelihood, near.logLikelihood);
    expectClose(estimates(far).slice(1), estimates(near).slice(1), 1e-7);
    expectClose(errors(far).slice(1), errors(near).slice(1), 1e-7);
    expectClose(robust(far).slice(1) as number[], robust(near).slice(1) as number[], 1e-7);
    expectClose(estimates(far)[0]! + 2022 * estimates(far)[1]!, estimates(near)[0]!, 1e-6);
    const c = near.covariance;
    const variance = c[0]! - 2 * 2022 * c[1]! + 2022 ** 2 * c[4]!;
    expectClose(errors(far)[0]!, Math.sqrt(variance), 1e-7);
  });

  it("have the estimates, tests and limits of Firth's method that they have about their mean", () => {
    const far = logisticFirth(by(0));
    const near = logisticFirth(by(2022));
    expect(far.converged).toBe(true);
    [1, 2].forEach((c) => {
      const [one, two] = [far.coefficients[c]!, near.coefficients[c]!];
      expectClose([one.estimate, one.standardError], [two.estimate, two.standardError], 1e-7);
      expectClose([one.lower, one.upper], [two.lower, two.upper], 1e-6);
      expectClose(one.pValue, two.pValue, 1e-7);
    });
    const [intercept, slope] = far.coefficients;
    expectClose(intercept!.estimate + 2022 * slope!.estimate, near.coefficients[0]!.estimate, 1e-6);
    const { lower, upper, estimate } = intercept!;
    expect(lower < estimate - 100 && upper > estimate + 100).toBe(true);
    expectClose(
      logisticFirthEstimates(by(0)).estimates,
      far.coefficients.map((each) => each.estimate),
    );
  });

  it("have the profile limits that they have about their mean", () => {
    const [far, near] = [logisticProfile(by(0)), logisticProfile(by(2022))];
    [1, 2].forEach((c) => {
      const limitsOf = ({ estimate, lower, upper }: (typeof far)[number]) => [
        estimate,
        lower,
        upper,
      ];
      expectClose(limitsOf(far[c]!), limitsOf(near[c]!), 1e-6);
    });
    expectClose(far[0]!.estimate + 2022 * far[1]!.estimate, near[0]!.estimate, 1e-6);
    expect(far[0]!.lower).toBeLessThan(far[0]!.estimate);
    expect(far[0]!.upper).toBeGreaterThan(far[0]!.estimate);
  });
});

describe("regression standardisation", () => {
  it("has limits where the scenario is so far out that the rate rounds to 1", () => {
    const outcome = [0, 0, 1, 0, 1, 1];
    const fit = logisticRegression({ outcome, covariates: [[0, 1, 2, 3, 4, 5]] });
    const [intercept, slope] = fit.coefficients.map((each) => each.estimate);
    const { rate, lower, upper } = standardisedRate(fit, [[60]]);
    expect(rate).toBe(1);
    // of a single row they are those of its log odds
    const [v00, v01, , v11] = fit.covariance;
    const error = Math.sqrt(v00! + 120 * v01! + 3600 * v11!);
    const logOdds = intercept! + 60 * slope! - 1.959963984540054 * error;
    expectClose(lower / (1 / (1 + Math.exp(-logOdds))), 1, 1e-8);
    expect(upper).toBe(1);
  });

  it("agrees with R: everybody a smoker against nobody, with and without clusters", () => {
    const scenario = (smoke: number) =>
      risks.map((name) => (name === "smoke" ? rows.map(() => smoke) : column(name)));
    const { standard } = reference;
    for (const [cluster, one, both] of [
      [undefined, "smokeError", "difference"],
      [column("id"), "smokeRobust", "differenceRobust"],
    ] as const) {
      const more = cluster === undefined ? {} : { cluster };
      const fit = logisticRegression({ ...births(...risks), ...more });
      const first = standardisedRate(fit, scenario(1));
      const second = standardisedRate(fit, scenario(0));
      expectClose([first.rate, second.rate], [standard.smoke, standard.none], 1e-8);
      expectClose(first.standardError, standard[one], 1e-7);
      const difference = standardisedDifference(fit, { first, second });
      expectClose(difference.standardError, standard[both], 1e-7);
      expect(difference.lower < difference.estimate && first.lower < first.rate).toBe(true);
    }
  });

  it("without case mix is the crude rate of each group", () => {
    const fit = logisticRegression(births("smoke"));
    const smokers = rows.filter((row) => row.smoke === 1);
    const crude = smokers.filter((row) => row.low === 1).length / smokers.length;
    expectClose(standardisedRate(fit, [rows.map(() => 1)]).rate, crude, 1e-8);
    expect(() => standardisedRate(fit, [])).toThrow(/covariates has 0 values/);
    expect(() => standardisedRate(fit, [[]])).toThrow(/no rows/);
  });
});

describe("laws of logistic regression", () => {
  const data = fc.array(
    fc.record({
      y: fc.nat(1),
      x: fc.integer({ min: -4, max: 4 }),
      z: fc.nat(1),
      w: fc.integer({ min: 1, max: 3 }),
    }),
    { minLength: 25, maxLength: 60 },
  );
  type Row = { y: number; x: number; z: number; w: number };
  const of = (list: readonly Row[]) => ({
    outcome: list.map((row) => row.y),
    covariates: [list.map((row) => row.x), list.map((row) => row.z)],
  });
  const check = (law: (list: Row[], fit: LogisticFit) => void) =>
    fc.assert(
      fc.property(data, (list) => {
        const fit = logisticRegression(of(list));
        fc.pre(fit.converged && fit.aliased.length === 0);
        law(list, fit);
      }),
      { seed: 91, numRuns: 80 },
    );

  it("successes for failures change every sign; recoding a covariate its own", () => {
    check((list, fit) => {
      const flipped = logisticRegression({ ...of(list), outcome: list.map((row) => 1 - row.y) });
      expectClose(
        estimates(flipped),
        estimates(fit).map((b) => -b),
        1e-6,
      );
      const recoded = logisticRegression(of(list.map((row) => ({ ...row, z: 1 - row.z }))));
      expectClose(estimates(recoded)[2]!, -estimates(fit)[2]!, 1e-6);
      expectClose(recoded.logLikelihood, fit.logLikelihood, 1e-8);
    });
  });

  it("weights are replicated rows, order does not matter, expected is observed", () => {
    check((list, fit) => {
      const weighted = logisticRegression({ ...of(list), weight: list.map((row) => row.w) });
      const repeated = logisticRegression(of(list.flatMap((row) => Array(row.w).fill(row))));
      expectClose(estimates(weighted), estimates(repeated), 1e-6);
      expectClose(errors(weighted), errors(repeated), 1e-6);
      expectClose(estimates(logisticRegression(of([...list].reverse()))), estimates(fit), 1e-7);
      const expected = fit.probabilities.reduce((a, b) => a + b, 0);
      expectClose(expected, fit.events, 1e-8);
    });
  });

  it("eyes entered twice have the robust error of once", () => {
    check((list) => {
      const once = logisticRegression({ ...of(list), cluster: list.map((_, i) => i) });
      const cluster = [...list.keys(), ...list.keys()];
      const twice = logisticRegression({ ...of([...list, ...list]), cluster });
      expectClose(robust(twice), robust(once), 1e-6);
    });
  });
});
