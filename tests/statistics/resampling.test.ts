import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bootstrap, bootstrapError, jackknife } from "../../src/statistics/bootstrap.ts";
import {
  acceleration,
  bcaInterval,
  biasCorrection,
  percentileInterval,
} from "../../src/statistics/bootstrap-interval.ts";
import type { GroupLabel } from "../../src/statistics/group-codes.ts";
import { permutationTest } from "../../src/statistics/permutation-test.ts";
import { seededRandom, shuffle } from "../../src/statistics/seeded-random.ts";
import { expectClose, expectPrinted } from "./close-to.ts";
import { expectNear } from "./near.ts";
import { readNumbers, readReference } from "./reference-data.ts";

const reference = readReference("resampling");
const { lsat, gpa } = reference.law as { lsat: number[]; gpa: number[] };
const limits = (interval: { lower: number; upper: number } | null) => [
  interval!.lower,
  interval!.upper,
];
const mean = (values: ArrayLike<number>) =>
  Array.from(values).reduce((a, b) => a + b, 0) / values.length;

function correlation(rows: Int32Array): number | null {
  const pairs = Array.from(rows, (i) => [lsat[i]!, gpa[i]!] as const);
  const mx = mean(pairs.map((pair) => pair[0]));
  const my = mean(pairs.map((pair) => pair[1]));
  const sum = (of: (x: number, y: number) => number) =>
    pairs.reduce((a, [x, y]) => a + of(x - mx, y - my), 0);
  return sum((x, y) => x * y) / Math.sqrt(sum((x) => x * x) * sum((_x, y) => y * y));
}
const law = { rows: lsat.length, statistic: correlation };

describe("the seeded generator", () => {
  it("is MT19937: its 10,000th output from seed 5489 is that in the C++ standard", () => {
    const { bits } = seededRandom(5489);
    const outputs = Array.from({ length: 10_000 }, bits);
    expect(outputs[0]).toBe(3499211612);
    expect(outputs[9999]).toBe(4123659995);
  });

  it("gives the numbers that NumPy's RandomState(42) gives, to the last digit", () => {
    const { uniform } = seededRandom(42);
    expect([uniform(), uniform(), uniform()]).toEqual([
      0.3745401188473625, 0.9507143064099162, 0.7319939418114051,
    ]);
  });

  it("draws whole numbers evenly, and shuffles into every order alike", () => {
    const random = seededRandom(7);
    const counts = new Float64Array(6);
    const orders = new Map<string, number>();
    for (let i = 0; i < 12_000; i++) {
      counts[random.below(6)]! += 1;
      const cards = ["a", "b", "c"];
      shuffle(cards, random);
      orders.set(cards.join(""), (orders.get(cards.join("")) ?? 0) + 1);
    }
    for (const count of [...counts, ...orders.values()]) expectNear(count, 2000, 5 * 41);
    expect(orders.size).toBe(6);
    expect(random.below(1)).toBe(0);
  });

  it("refuses a seed that is none", () => {
    for (const seed of [-1, 0.5, 2 ** 32, Number.NaN]) {
      expect(() => seededRandom(seed)).toThrow(/expected a whole number from 0 to 4294967295/);
    }
  });
});

describe("bootstrap intervals", () => {
  const stored = {
    estimate: reference.law.estimate,
    replicates: Float64Array.from(reference.law.replicates as number[]),
    undefinedReplicates: 0,
    clusters: 15,
    seed: 0,
  };

  it("from stored replicates of 15 law schools agree with R's package boot", () => {
    expectPrinted(correlation(Int32Array.from(lsat.keys()))!, "0.776");
    const leftOut = jackknife(law)!;
    expectClose(leftOut, reference.law.jackknife);
    expectClose(acceleration(leftOut), reference.law.acceleration);
    for (const { level, percentile, bca } of reference.law.intervals) {
      expectClose(limits(percentileInterval(stored, level)), percentile);
      expectClose(limits(bcaInterval(stored, leftOut, level)), bca);
    }
  });

  it("from replicates of its own lie near those of 20,000 in R", () => {
    const own = bootstrap(law, { seed: 1, replicates: 4000 })!;
    expectNear(bootstrapError(own)!, reference.long.se, 0.006);
    expectNear(limits(percentileInterval(own)), reference.long.percentile, 0.025);
    expectNear(limits(bcaInterval(own, jackknife(law)!)), reference.long.bca, 0.04);
  });

  it("by hand: replicates 1, 2, 3 at level 1/2 are at the first and the third", () => {
    const three = { ...stored, estimate: 2, replicates: Float64Array.of(1, 2, 3) };
    expectClose(limits(percentileInterval(three, 0.5)), [1, 3]);
    expect(biasCorrection(three.replicates, 2)).toBe(0);
    expectClose(limits(bcaInterval(three, [5, 5], 0.5)), [1, 3]);
    // d = -2, 1, 1: cubes sum to -6, squares to 6
    expectClose(acceleration([5, 2, 2]), -6 / (6 * 6 ** 1.5));
  });

  it("are not estimable without replicates or with all on one side of the estimate", () => {
    const none = { ...stored, replicates: new Float64Array(0) };
    expect(percentileInterval(none)).toBeNull();
    expect(bcaInterval(none, [1, 2])).toBeNull();
    expect(bcaInterval({ ...stored, estimate: 9 }, [1, 2])).toBeNull();
    expect(bootstrapError(none)).toBeNull();
    const one = { ...stored, estimate: 4, replicates: Float64Array.of(4, 4, 4) };
    expect(limits(percentileInterval(one))).toEqual([4, 4]);
    expect(limits(bcaInterval(one, [4, 4, 4]))).toEqual([4, 4]);
  });
});

describe("the bootstrap", () => {
  const { status, id } = readNumbers("retinopathy.csv");
  const eyes = {
    rows: status!.length,
    cluster: id!,
    statistic: (rows: Int32Array) => mean(rows.map((row) => status![row]!)),
  };

  it("by patient lies near R's own drawing of patients, and is wider than by eye", () => {
    const byPatient = bootstrap(eyes, { seed: 3 })!;
    expect(byPatient.clusters).toBe(197);
    expectNear(bootstrapError(byPatient)!, reference.clusters.se, 0.0015);
    expectNear(limits(percentileInterval(byPatient)), reference.clusters.percentile, 0.006);
    const { cluster: _, ...single } = eyes;
    const byEye = bootstrap(single, { seed: 3 })!;
    expect(bootstrapError(byEye)!).toBeLessThan(bootstrapError(byPatient)!);
  });

  it("gives the same replicates for the same seed, others for another", () => {
    const run = (seed: number) => bootstrap(law, { seed, replicates: 50 })!;
    expect(run(5)).toEqual(run(5));
    expect(run(5).replicates).not.toEqual(run(6).replicates);
  });

  it("draws whole clusters", () => {
    const seen = new Set<string>();
    const statistic = (rows: Int32Array) => {
      seen.add([...rows].join());
      return rows.length;
    };
    const cluster = ["x", "x", "y"];
    bootstrap({ rows: 3, cluster, statistic }, { seed: 2, replicates: 60 });
    expect(seen).toEqual(new Set(["0,1,2", "0,1,0,1", "2,0,1", "2,2"]));
  });

  it("counts resamples without a value, and is null without rows or without an estimate", () => {
    const statistic = (rows: Int32Array) => (rows.includes(0) ? 1 : null);
    const some = bootstrap({ rows: 2, statistic }, { seed: 1, replicates: 400 })!;
    expect(some.undefinedReplicates + some.replicates.length).toBe(400);
    expectNear(some.undefinedReplicates, 100, 40);
    expect(percentileInterval(some)).toBeNull();
    expect(bcaInterval(some, [1, 1])).toBeNull();
    expect(jackknife({ rows: 2, statistic })).toBeNull();
    expect(bootstrap({ rows: 0, statistic: () => 1 }, { seed: 1 })).toBeNull();
    expect(bootstrap({ rows: 2, statistic: () => Number.NaN }, { seed: 1 })).toBeNull();
    const wrong = { rows: 2, cluster: ["a"], statistic };
    expect(() => bootstrap(wrong, { seed: 1 })).toThrow(/expected the same/);
  });

  it("of one row has no spread; of a mean it has the error sd / sqrt(n)", () => {
    const one = bootstrap({ rows: 1, statistic: () => 7 }, { seed: 1, replicates: 20 })!;
    expect(bootstrapError(one)).toBe(0);
    const values = [3, 8, 1, 9, 4, 4, 7, 2];
    const statistic = (rows: Int32Array) => mean(rows.map((row) => values[row]!));
    const exact = Math.sqrt(mean(values.map((v) => (v - mean(values)) ** 2)) / values.length);
    const error = bootstrapError(
      bootstrap({ rows: 8, statistic }, { seed: 4, replicates: 4000 })!,
    )!;
    expectClose(error, exact, 0.04);
  });
});

describe("the permutation test", () => {
  const { first, second, p } = reference.permutation;
  const values: number[] = [...first, ...second];
  const group: number[] = [...first.map(() => 0), ...second.map(() => 1)];
  const difference = (labels: readonly GroupLabel[]) =>
    Math.abs(
      mean(values.filter((_, i) => labels[i] === labels[0])) -
        mean(values.filter((_, i) => labels[i] !== labels[0])),
    );

  it("comes near the p of all 1716 orders, counted in R", () => {
    const test = permutationTest(
      { group, statistic: difference },
      { seed: 8, permutations: 10_000 },
    );
    expectNear(test.pValue, p, 4 * Math.sqrt((p * (1 - p)) / 10_000));
    expect(permutationTest({ group, statistic: difference }, { seed: 8 })).toEqual(
      permutationTest({ group, statistic: difference }, { seed: 8 }),
    );
  });

  it("by hand: two against two apart has 2 of 6 orders", () => {
    const four = [1, 2, 10, 11];
    const statistic = (labels: readonly GroupLabel[]) =>
      Math.abs(four.reduce((sum, v, i) => sum + (labels[i] === "a" ? v : -v), 0));
    const test = permutationTest(
      { group: ["a", "a", "b", "b"], statistic },
      { seed: 1, permutations: 6000 },
    );
    expectNear(test.pValue, 1 / 3, 0.025);
  });

  it("moves labels between whole patients, or only within them", () => {
    const cluster = ["p", "p", "q", "q", "r"];
    const alike = (labels: readonly GroupLabel[]) => {
      expect(labels[0]).toBe(labels[1]);
      expect(labels[2]).toBe(labels[3]);
      return 0;
    };
    permutationTest({ group: [1, 1, 0, 0, 0], cluster, statistic: alike }, { seed: 1 });
    const paired = (labels: readonly GroupLabel[]) => {
      expect([...labels.slice(0, 2)].sort()).toEqual([0, 1]);
      return 0;
    };
    permutationTest({ group: [1, 0, 0, 1, 1], within: cluster, statistic: paired }, { seed: 1 });
    const mixed = { group: [1, 0, 0, 0, 0], cluster, statistic: alike };
    expect(() => permutationTest({ ...mixed, statistic: () => 0 }, { seed: 1 })).toThrow(
      /cluster p has rows in groups 1 and 0/,
    );
    const missing = { group: ["a", Number.NaN], statistic: () => 0 };
    expect(() => permutationTest(missing, { seed: 1 })).toThrow("group[1] is missing");
    expect(() => permutationTest({ ...mixed, within: cluster }, { seed: 1 })).toThrow(
      /one of them/,
    );
  });

  it("has p of 1 where no order matters, and never 0", () => {
    expect(permutationTest({ group: [], statistic: () => 0 }, { seed: 1 }).pValue).toBe(1);
    expect(permutationTest({ group: [1, 2], statistic: () => 5 }, { seed: 1 }).pValue).toBe(1);
    let calls = 0;
    const first = () => (calls++ === 0 ? 1 : 0);
    const test = permutationTest(
      { group: [1, 2], statistic: first },
      { seed: 1, permutations: 99 },
    );
    expect(test.pValue).toBe(0.01);
  });

  it("leaves the labels it was given as they were and holds its level under equality", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2 ** 32 - 1 }), (seed) => {
        const labels = [0, 1, 0, 1, 0, 1];
        const { pValue } = permutationTest(
          { group: labels, statistic: (g) => (g[0] === g[1] ? 1 : 0) },
          { seed, permutations: 50 },
        );
        expect(labels).toEqual([0, 1, 0, 1, 0, 1]);
        expect(pValue > 0 && pValue <= 1).toBe(true);
      }),
      { seed: 91, numRuns: 20 },
    );
  });
});
