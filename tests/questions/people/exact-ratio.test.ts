import { describe, expect, test } from "vitest";
import { exactRatio } from "../../../src/questions/people/exact-ratio.ts";
import { poissonInterval } from "../../../src/statistics/poisson-interval.ts";

const risks = [0.05, 0.1, 0.2, 0.35, 0.5, 0.08];

/** A slow plain twin: every outcome of six eyes, one by one. */
function tail(observed: number, some: readonly number[], side: "up" | "down"): number {
  let sum = 0;
  for (let outcome = 0; outcome < 2 ** some.length; outcome++) {
    let probability = 1;
    let failed = 0;
    some.forEach((risk, i) => {
      const has = (outcome >> i) & 1;
      failed += has;
      probability *= has === 1 ? risk : 1 - risk;
    });
    if (side === "up" ? failed >= observed : failed <= observed) sum += probability;
  }
  return sum;
}

/** The risks whose odds are all multiplied so that they sum to `expected`, by plain bisection. */
function shiftedTo(expected: number): number[] {
  let [low, high] = [1e-9, 1e9];
  const at = (factor: number) => risks.map((p) => (factor * p) / (1 - p + factor * p));
  for (let i = 0; i < 200; i++) {
    const middle = Math.sqrt(low * high);
    if (at(middle).reduce((a, b) => a + b, 0) < expected) low = middle;
    else high = middle;
  }
  return at(low);
}

describe("observed over expected by the risk of each eye", () => {
  const expected = risks.reduce((a, b) => a + b, 0);

  test.each([1, 2, 3, 5])("%i of 6: at its limits the tails are 2.5%%", (observed) => {
    const found = exactRatio(observed, risks);
    if (found === null) throw new Error("no ratio");
    expect(found.expected).toBeCloseTo(expected, 12);
    expect(tail(observed, shiftedTo(found.lower * expected), "up")).toBeCloseTo(0.025, 8);
    expect(tail(observed, shiftedTo(found.upper * expected), "down")).toBeCloseTo(0.025, 8);
  });

  test("none and all failed: an open end is 0, or all of them", () => {
    expect(exactRatio(0, risks)?.lower).toBe(0);
    expect(exactRatio(6, risks)?.upper).toBeCloseTo(6 / expected, 12);
  });

  test("no eyes have no ratio; the order of eyes does not matter", () => {
    expect(exactRatio(0, [])).toBeNull();
    const turned = exactRatio(2, [...risks].reverse());
    expect(turned?.lower).toBeCloseTo(exactRatio(2, risks)?.lower ?? Number.NaN, 10);
  });

  test("it is narrower than Poisson's interval, and near it where risks are small", () => {
    const small = new Array(400).fill(0.01);
    const exact = exactRatio(4, small);
    const poisson = exactRatio(4, small, { method: "Poisson" });
    expect(poisson?.upper).toBeCloseTo(poissonInterval(4).upper / 4, 12);
    expect(Number(exact?.upper)).toBeLessThan(Number(poisson?.upper));
    expect(Math.abs(Number(exact?.upper) / Number(poisson?.upper) - 1)).toBeLessThan(0.02);
  });
});
