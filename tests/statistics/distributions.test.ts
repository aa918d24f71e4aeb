import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  betaLowerTail,
  betaQuantile,
  binomialLowerTail,
  binomialProbability,
  binomialUpperTail,
  chiSquareUpperTail,
  hypergeometricLogProbability,
  normalDeviate,
  normalLowerTail,
  normalQuantile,
  poissonLowerTail,
  poissonUpperTail,
} from "../../src/statistics/distributions.ts";
import { findRoot } from "../../src/statistics/find-root.ts";
import {
  gammaLowerTail,
  gammaQuantile,
  gammaUpperTail,
} from "../../src/statistics/incomplete-gamma.ts";
import { logChoose, logFactorial, logGamma } from "../../src/statistics/log-gamma.ts";
import { expectClose } from "./close-to.ts";
import { evenly } from "./even-numbers.ts";
import { readReference } from "./reference-data.ts";

const reference = readReference("distributions");
const isTiny = (value: number) => value < 1e-300;

/** A relative distance even for the smallest probabilities. */
function expectSame(actual: number, expected: number, tolerance = 1e-11): void {
  if (isTiny(expected)) {
    expect(actual).toBeLessThan(1e-290);
    return;
  }
  const ratio = actual / expected;
  expect(Math.abs(ratio - 1) < tolerance, `${actual}; expected ${expected}`).toBe(true);
}

describe("the incomplete gamma function", () => {
  it("agrees with R in both tails for shapes from 0.1 to 100,000", () => {
    for (const { shape, x, lower, upper } of reference.gamma) {
      expectSame(gammaLowerTail(shape, x), lower, 1e-10);
      expectSame(gammaUpperTail(shape, x), upper, 1e-10);
    }
  });

  it("has R's quantiles from either tail", () => {
    for (const { p, shape, lower, upper } of reference.gammaQuantile) {
      expectSame(gammaQuantile(p, shape), lower, 1e-9);
      expectSame(gammaQuantile(p, shape, "upper"), upper, 1e-9);
    }
    expect(gammaQuantile(0, 3)).toBe(0);
    expect(gammaQuantile(0, 3, "upper")).toBe(Infinity);
    expect(() => gammaQuantile(1.2, 3)).toThrow(RangeError);
  });

  it("is elementary for whole shapes: 1 - e^-x (1 + x) at shape 2", () => {
    expectClose(gammaUpperTail(2, 3), 4 * Math.exp(-3));
    expectClose(poissonLowerTail(1, 3), 4 * Math.exp(-3));
    expectClose(poissonUpperTail(2, 3), 1 - 4 * Math.exp(-3));
    expect(gammaLowerTail(2, 0)).toBe(0);
    expect(gammaUpperTail(2, 0)).toBe(1);
    expect(() => gammaLowerTail(0, 1)).toThrow(RangeError);
  });

  it("tails add to 1", () => {
    const shape = fc.double({ min: 0.01, max: 5000, noNaN: true });
    fc.assert(
      fc.property(shape, evenly(0, 3), (a, ratio) => {
        expectClose(gammaLowerTail(a, a * ratio) + gammaUpperTail(a, a * ratio), 1, 1e-12);
      }),
      { seed: 1, numRuns: 300 },
    );
  });
});

describe("other distributions", () => {
  it("agree with R far into the tails", () => {
    for (const { z, lower } of reference.normal) expectSame(normalLowerTail(z), lower);
    for (const { p, z } of reference.normalQuantile) expectClose(normalQuantile(p), z, 1e-12);
    for (const { x, df, upper } of reference.chiSquare) {
      expectSame(chiSquareUpperTail(x, df), upper, 1e-10);
    }
    expectClose(normalDeviate(0.95), 1.959963984540054, 1e-14);
    expect(chiSquareUpperTail(5, 0)).toBe(1);
  });

  it("the beta, binomial and hypergeometric distributions agree with R", () => {
    for (const { x, a, b, cdf, quantile } of reference.beta) {
      expectSame(betaLowerTail(x, a, b), cdf, 1e-9);
      expectSame(betaQuantile(x, a, b), quantile, 1e-8);
    }
    for (const { k, n, p, lower, upper, density } of reference.binomial) {
      expectSame(binomialLowerTail(k, n, p), lower, 1e-9);
      expectSame(binomialUpperTail(k, n, p), upper, 1e-9);
      expectSame(binomialProbability(k, n, p), density, 1e-9);
    }
    for (const { k, log, ...table } of reference.hypergeometric) {
      expectClose(hypergeometricLogProbability(k, table), log, 1e-10);
    }
  });

  it("the logarithm of the gamma function agrees with R, and of factorials by hand", () => {
    for (const { x, value } of reference.logGamma) expectClose(logGamma(x), value, 1e-13);
    expectClose(logFactorial(5), Math.log(120), 1e-14);
    expectClose(logChoose(10, 3), Math.log(120), 1e-13);
    expect(() => logGamma(0)).toThrow(RangeError);
  });
});

describe("finding a root", () => {
  it("solves what is known: cos x = x, and steep and flat functions", () => {
    expectClose(
      findRoot((x) => Math.cos(x) - x, { from: 0, to: 1 }),
      0.7390851332151607,
      1e-15,
    );
    expectClose(
      findRoot((x) => x ** 9, { from: -1, to: 1.5, tolerance: 1e-12 }),
      0,
      1e-2,
    );
    expectClose(
      findRoot((x) => Math.exp(50 * x) - 2, { from: -1, to: 3 }),
      Math.LN2 / 50,
      1e-12,
    );
    expect(findRoot((x) => x, { from: 0, to: 1 })).toBe(0);
    expect(() => findRoot((x) => x * x + 1, { from: -1, to: 1 })).toThrow(/opposite signs/);
  });

  it("finds the root of any line", () => {
    const root = evenly(-100, 100);
    fc.assert(
      fc.property(root, fc.double({ min: 0.01, max: 50, noNaN: true }), (at, slope) => {
        expect(
          Math.abs(findRoot((x) => slope * (x - at), { from: -130, to: 117 }) - at),
        ).toBeLessThan(1e-10);
      }),
      { seed: 2, numRuns: 200 },
    );
  });
});
