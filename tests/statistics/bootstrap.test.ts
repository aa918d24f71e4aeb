import { describe, expect, it } from "vitest";
import { bcaLimits, bootstrap, percentileLimits } from "../../src/statistics/bootstrap.ts";
import { clusteredProportion } from "../../src/statistics/clustered-proportion.ts";
import { randomSource, xoshiro128 } from "../../src/statistics/random-source.ts";
import { expectClose } from "./close-to.ts";
import { readNumbers, readReference } from "./reference-data.ts";

const reference = readReference("bootstrap");

describe("the random source", () => {
  it("is xoshiro128**: from the state 1, 2, 3, 4 by hand 11520, 0, 5927040", () => {
    const next = xoshiro128(Uint32Array.of(1, 2, 3, 4));
    expect([next(), next(), next()]).toEqual([11520, 0, 5927040]);
  });

  it("repeats with the seed, differs between seeds, and takes no clock", () => {
    const draw = (seed: number) => Array.from({ length: 5 }, randomSource(seed).uniform);
    expect(draw(7)).toEqual(draw(7));
    const firsts = [0, 1, 2, 2 ** 32, 2 ** 32 + 1, 2 ** 53 - 1].map((seed) => draw(seed)[0]);
    expect(new Set(firsts).size).toBe(6);
    expect(() => randomSource(-1)).toThrow(/seed is -1/);
    expect(() => randomSource(0.5)).toThrow(/seed is 0.5/);
  });

  it("is uniform: moments, and a chi-square of whole numbers, within 4 standard errors", () => {
    const random = randomSource(1);
    const count = 100_000;
    let [sum, squares, product, last] = [0, 0, 0, 0.5];
    const cells = new Array(7).fill(0);
    for (let i = 0; i < count; i++) {
      const value = random.uniform();
      expect(value >= 0 && value < 1).toBe(true);
      sum += value;
      squares += value * value;
      product += (value - 0.5) * (last - 0.5);
      last = value;
      cells[random.integer(7)]++;
    }
    expect(Math.abs(sum / count - 1 / 2)).toBeLessThan(4 / Math.sqrt(12 * count));
    expect(Math.abs(squares / count - 1 / 3)).toBeLessThan(4 * Math.sqrt(4 / 45 / count));
    expect(Math.abs(product / count)).toBeLessThan(4 / 12 / Math.sqrt(count));
    const expected = count / 7;
    const chiSquare = cells.reduce((total, o) => total + (o - expected) ** 2 / expected, 0);
    expect(chiSquare).toBeLessThan(6 + 4 * Math.sqrt(12));
  });

  it("draws whole numbers below a bound, and refuses an impossible one", () => {
    const { integer } = randomSource(3);
    expect(new Set(Array.from({ length: 200 }, () => integer(3)))).toEqual(new Set([0, 1, 2]));
    expect(integer(1)).toBe(0);
    expect(integer(2 ** 32)).toBeLessThan(2 ** 32);
    expect(() => integer(0)).toThrow(/below is 0/);
  });
});

describe("the bootstrap by patient", () => {
  it("limits agree with R on the same draws: percentile and BCa", () => {
    const { draws, estimate, without, bca95, bca90, percentile95 } = reference;
    const percentile = percentileLimits(draws, 0.95);
    expectClose([percentile.lower, percentile.upper], percentile95);
    for (const [level, expected] of [
      [0.95, bca95],
      [0.9, bca90],
    ] as const) {
      const bca = bcaLimits(draws, { estimate, without, level });
      expectClose([bca.lower, bca.upper], expected);
    }
  });

  it("of both eyes of 197 patients has the clustered standard error, not the plain one", () => {
    const { status, id } = readNumbers("retinopathy.csv");
    const result = bootstrap({
      cluster: id!,
      statistic: (rows) => rows.reduce((sum, row) => sum + status![row]!, 0) / rows.length,
      seed: 2024,
      draws: 4000,
    })!;
    const clustered = clusteredProportion(status!, id!)!;
    expect(result.estimate).toBe(clustered.estimate);
    // 4000 draws: the standard error is known to about 1.1%, taken three times
    expectClose(result.standardError, clustered.standardError, 0.035);
    expect(result.standardError).toBeGreaterThan(0.0252);
    expect(Math.abs(result.bias)).toBeLessThan(0.002);
    expect(result.notEstimable).toBe(0);
  });

  it("of a mean has the error sd / sqrt n, and BCa leans to the long tail", () => {
    const x: number[] = reference.x;
    const mean = (rows: Int32Array) => rows.reduce((sum, row) => sum + x[row]!, 0) / rows.length;
    const input = { cluster: x.map((_, i) => i), statistic: mean, seed: 5, draws: 4000 };
    const percentile = bootstrap(input)!;
    const variance = x.reduce((sum, v) => sum + (v - reference.estimate) ** 2, 0) / x.length;
    expectClose(percentile.standardError, Math.sqrt(variance / x.length), 0.035);
    const bca = bootstrap({ ...input, method: "BCa" })!;
    expect(bca.interval!.upper).toBeGreaterThan(percentile.interval!.upper);
    expect(bca.interval!.method).toBe("bootstrap by patient, BCa");
    expect(bootstrap(input)!.values).toEqual(percentile.values);
  });

  it("counts draws that are not estimable and gives no limits when they are many", () => {
    const cluster = ["a", "b", "c"];
    const onlyWithA = (rows: Int32Array) => (rows.includes(0) ? rows.length : null);
    const result = bootstrap({ cluster, statistic: onlyWithA, seed: 1, draws: 300 })!;
    expect(result.notEstimable + result.values.length).toBe(300);
    // without a: (2/3)^3 = 30%
    expect(result.notEstimable).toBeGreaterThan(60);
    expect(result.interval).toBeNull();
    expect(bootstrap({ cluster: [], statistic: () => null, seed: 1 })).toBeNull();
  });

  it("of a constant has no width; refuses no draws", () => {
    const constant = { cluster: [1, 1, 2], statistic: () => 4, seed: 1, draws: 50 };
    const result = bootstrap({ ...constant, method: "BCa" })!;
    expect([result.standardError, result.interval!.lower, result.interval!.upper]).toEqual([
      0, 4, 4,
    ]);
    expect(() => bootstrap({ ...constant, draws: 0 })).toThrow(/draws is 0/);
  });
});
