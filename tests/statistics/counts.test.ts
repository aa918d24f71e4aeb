import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { binomialCounts, poissonCounts } from "../../src/statistics/count-distributions.ts";
import { countTest } from "../../src/statistics/count-test.ts";
import { observedExpected } from "../../src/statistics/observed-expected.ts";
import {
  observedAgainstRisks,
  poissonBinomialProbabilities,
} from "../../src/statistics/poisson-binomial.ts";
import { type PoissonMethod, poissonInterval } from "../../src/statistics/poisson-interval.ts";
import { rateRatio } from "../../src/statistics/rate-ratio.ts";
import { expectClose, expectPrinted } from "./close-to.ts";
import { evenly } from "./even-numbers.ts";
import { expectNear } from "./near.ts";
import { readReference } from "./reference-data.ts";

const reference = readReference("counts");
const methods: readonly PoissonMethod[] = ["exact", "mid-P", "Byar"];
const limits = (interval: { lower: number; upper: number } | null) => [
  interval!.lower,
  interval!.upper,
];

describe("limits of a Poisson count", () => {
  it("agree with R's poisson.test and with roots found in R, at three levels", () => {
    for (const { count, level, exact, midP, byar } of reference.limits) {
      expectClose(limits(poissonInterval(count, { level })), exact);
      expectClose(limits(poissonInterval(count, { level, method: "mid-P" })), midP, 1e-8);
      expectClose(limits(poissonInterval(count, { level, method: "Byar" })), byar);
    }
  });

  it("are elementary at none: -ln(0.025) exact, -ln(0.05) mid-P, and 0 below", () => {
    expectClose(limits(poissonInterval(0)), [0, -Math.log(0.025)]);
    expectClose(limits(poissonInterval(0, { method: "mid-P" })), [0, -Math.log(0.05)]);
    expect(poissonInterval(0, { method: "Byar" }).lower).toBe(0);
    // at one, P(X >= 1) = 1 - e^-m = 0.025
    expectClose(poissonInterval(1).lower, -Math.log(0.975));
  });

  it("by Byar are within 0.2% of exact from 10 up (Public Health Data Science, 2018)", () => {
    for (const count of [10, 15, 20, 50, 100, 1000]) {
      const exact = limits(poissonInterval(count));
      expectClose(limits(poissonInterval(count, { method: "Byar" })), exact, 0.002);
    }
  });

  it("carry their method and refuse what is no count", () => {
    expect(methods.map((method) => poissonInterval(3, { method }).method)).toEqual([
      "exact Poisson (Garwood)",
      "Poisson mid-P",
      "Byar's approximation",
    ]);
    expect(() => poissonInterval(-1)).toThrow("count is -1; expected a whole number of 0 or more");
    expect(() => poissonInterval(2, { level: 95 })).toThrow(/level is 95/);
    expect(() => poissonInterval(2, { method: "score" as never })).toThrow(/expected exact, mid-P/);
  });

  it("cover the count, rise with it, and mid-P lies within exact", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 3000 }), fc.constantFrom(...methods), (x, method) => {
        const [lower, upper] = limits(poissonInterval(x, { method }));
        const next = limits(poissonInterval(x + 1, { method }));
        const exact = limits(poissonInterval(x));
        expect(lower! <= x && x < upper! && next[0]! > lower! && next[1]! > upper!).toBe(true);
        if (method === "mid-P") expect(lower! >= exact[0]! && upper! <= exact[1]!).toBe(true);
      }),
      { seed: 21, numRuns: 150 },
    );
  });
});

describe("observed over expected", () => {
  it("prints as published", () => {
    // 4 against 3.3: ratio and mid-P p in Sullivan, Emory University, 2006 (epidemiology course)
    const four = observedExpected(4, 3.3)!;
    expectPrinted(four.ratio, "1.212");
    expectPrinted(four.midP, "0.6571");
    // asbestos workers, Armitage, Berry and Matthews, 4th edition, table 19.6
    const asbestos = observedExpected(67, 13.8)!;
    expectPrinted(asbestos.ratio, "4.9");
    expectPrinted(asbestos.z, "14.3");
    expectPrinted(asbestos.lower, "3.8");
    expectPrinted(asbestos.upper, "6.2");
  });

  it("has R's p values: exact, one-sided and mid-P", () => {
    for (const { observed, expected, two, less, greater, mid } of reference.tests) {
      const result = observedExpected(observed, expected)!;
      expectClose(result.pTwoSided, two);
      expectClose(result.pLess, less);
      expectClose(result.pGreater, greater);
      expectClose(result.midP, mid);
      expectClose(
        limits(result),
        limits(poissonInterval(observed)).map((m) => m / expected),
      );
    }
  });

  it("is not estimable where nothing was expected, and 0 where nothing was observed", () => {
    expect(observedExpected(0, 0)).toBeNull();
    expect(observedExpected(2, 0)).toBeNull();
    expect(observedExpected(0, 2)).toMatchObject({ ratio: 0, lower: 0 });
    expectClose(observedExpected(0, 2)!.pLess, Math.exp(-2));
    expect(() => observedExpected(1, Number.NaN)).toThrow(/expected is NaN/);
    expect(() => observedExpected(1, -1)).toThrow(RangeError);
  });
});

describe("the exact test of a count", () => {
  it("has R's two-sided binomial p", () => {
    for (const { x, n, p, two } of reference.binomial) {
      expectClose(countTest(x, binomialCounts(n, p)).pTwoSided, two);
    }
  });

  it("by hand: 3 of 3 at one half has 1/8 above, 1/4 on both sides, and mid-P 1/8", () => {
    expectClose(Object.values(countTest(3, binomialCounts(3, 0.5))), [1, 1 / 8, 1 / 4, 1 / 8]);
  });

  it("is 1 at the mode, and sums what is no more probable, as counting out all does", () => {
    const cases = fc.tuple(fc.integer({ min: 0, max: 40 }), evenly(0, 1));
    fc.assert(
      fc.property(cases, fc.nat(40), ([n, p], k) => {
        const x = Math.min(k, n);
        const distribution = binomialCounts(n, p);
        const all = Array.from({ length: n + 1 }, (_, i) => distribution.probability(i));
        const rare = all.filter((q) => q <= all[x]! * (1 + 1e-7)).reduce((a, b) => a + b, 0);
        const { pTwoSided, pLess, pGreater } = countTest(x, distribution);
        expectNear(pTwoSided, Math.min(1, rare), 1e-12);
        expectNear(pLess + pGreater - all[x]!, 1, 1e-12);
      }),
      { seed: 22, numRuns: 200 },
    );
    expect(countTest(3, poissonCounts(3)).pTwoSided).toBe(1);
    expect(countTest(2, poissonCounts(3)).pTwoSided).toBe(1);
    expect(countTest(0, poissonCounts(0)).pTwoSided).toBe(1);
    expect(countTest(1, poissonCounts(0))).toMatchObject({ pGreater: 0, pTwoSided: 0, midP: 0 });
  });
});

describe("the Poisson-binomial distribution", () => {
  it("agrees with its characteristic function inverted in R", () => {
    for (const { risks, probabilities } of reference.poissonBinomial) {
      expectNear(poissonBinomialProbabilities(risks), probabilities, 1e-14);
    }
  });

  it("by hand: risks 0.1 and 0.2", () => {
    expectClose(poissonBinomialProbabilities([0.1, 0.2]), [0.72, 0.26, 0.02]);
    const test = observedAgainstRisks(2, [0.1, 0.2]);
    expectClose([test.expected, test.variance, test.pGreater], [0.3, 0.25, 0.02]);
    expectClose([test.pTwoSided, test.midP, test.z!], [0.02, 0.02, 1.7 / 0.5]);
  });

  it("has mean and variance of its risks, any order, and is binomial when they are equal", () => {
    const risk = evenly(0, 1);
    fc.assert(
      fc.property(fc.array(risk, { maxLength: 40 }), (risks) => {
        const f = poissonBinomialProbabilities(risks);
        const sum = (of: (p: number, k: number) => number) =>
          f.reduce((a, p, k) => a + of(p, k), 0);
        const mean = risks.reduce((a, p) => a + p, 0);
        const variance = risks.reduce((a, p) => a + p * (1 - p), 0);
        expectNear(
          sum((p) => p),
          1,
          1e-12,
        );
        expectNear(
          sum((p, k) => p * k),
          mean,
          1e-11,
        );
        expectNear(
          sum((p, k) => p * (k - mean) ** 2),
          variance,
          1e-10,
        );
        expectNear(poissonBinomialProbabilities(risks.toReversed()), f, 1e-13);
      }),
      { seed: 23, numRuns: 100 },
    );
    const equal = poissonBinomialProbabilities(new Array(50).fill(0.13));
    const { probability } = binomialCounts(50, 0.13);
    for (let k = 0; k <= 20; k++) expectClose(equal[k]!, probability(k), 1e-10);
  });

  it("with no eyes, certain eyes and impossible counts", () => {
    expectClose(poissonBinomialProbabilities([]), [1]);
    expect(observedAgainstRisks(0, [])).toMatchObject({ pTwoSided: 1, z: null, expected: 0 });
    expect(observedAgainstRisks(2, [1, 1, 0])).toMatchObject({ pTwoSided: 1, z: null });
    expect(observedAgainstRisks(1, [1, 1, 0])).toMatchObject({ pTwoSided: 0, pLess: 0 });
    expect(() => observedAgainstRisks(3, [0.1])).toThrow("observed is 3 of 1 eyes");
    expect(() => observedAgainstRisks(0, [1.2])).toThrow("risks[0] is 1.2; expected a probability");
  });

  it("is less spread than the Poisson with the same mean: the same excess is rarer", () => {
    const risks = new Array(40).fill(0.3);
    const exact = observedAgainstRisks(20, risks);
    expect(exact.pGreater).toBeLessThan(observedExpected(20, 12)!.pGreater);
  });
});

describe("the ratio of two rates", () => {
  it("agrees with R's poisson.test", () => {
    for (const { first, second, ratio, limits: expected, p } of reference.ratios) {
      const rates = [first, second].map(([events, exposure]) => ({ events, exposure }));
      const result = rateRatio({ first: rates[0]!, second: rates[1]! })!;
      expectClose(result.ratio, ratio);
      expectClose(limits(result), expected);
      expectClose(result.pTwoSided, p);
    }
  });

  const eleven = { first: { events: 11, exposure: 800 }, second: { events: 21, exposure: 3011 } };

  it("prints as R's help page of poisson.test (after Sahai and Khurshid 1996)", () => {
    const result = rateRatio(eleven)!;
    expectPrinted(result.ratio, "1.971488");
    expectPrinted(result.lower, "0.8584264");
    expectPrinted(result.upper, "4.277266");
    expectPrinted(result.pTwoSided, "0.07967");
  });

  it("turns over when the groups change places, and narrows under mid-P", () => {
    const count = fc.integer({ min: 0, max: 60 });
    const exposure = evenly(0.5, 500);
    const rate = fc.record({ events: count, exposure });
    fc.assert(
      fc.property(rate, rate, (first, second) => {
        const one = rateRatio({ first, second });
        const other = rateRatio({ first: second, second: first });
        fc.pre(one !== null);
        expectClose(limits(other), [1 / one.upper, 1 / one.lower], 1e-7);
        expectClose(other!.pTwoSided, one.pTwoSided, 1e-7);
        const middle = rateRatio({ first, second }, { method: "mid-P" })!;
        expect(middle.lower >= one.lower * (1 - 1e-9)).toBe(true);
        expect(middle.upper <= one.upper * (1 + 1e-9)).toBe(true);
      }),
      { seed: 24, numRuns: 100 },
    );
  });

  it("keeps its digits where nearly all events are of one group: R 4.2.2, qbeta; pbinom by uniroot", () => {
    const rates = {
      first: { events: 4_819_107, exposure: 1 },
      second: { events: 1, exposure: 1 },
    };
    const [lower, upper] = limits(rateRatio(rates));
    expectClose([lower! / 864934.163233783, upper! / 190344598.171036], [1, 1]);
    expectClose(rateRatio(rates, { method: "mid-P" })!.upper / 96342957.3913445, 1);
  });

  it("is not estimable without events and needs exposure", () => {
    const none = { events: 0, exposure: 10 };
    expect(rateRatio({ first: none, second: none })).toBeNull();
    expect(rateRatio({ ...eleven, second: none })).toMatchObject({
      ratio: Infinity,
      upper: Infinity,
    });
    expect(() => rateRatio({ ...eleven, first: { events: 1, exposure: 0 } })).toThrow(
      "first.exposure is 0; expected a number above 0",
    );
  });
});
