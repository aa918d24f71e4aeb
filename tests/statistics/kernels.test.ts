import fc from "fast-check";
import { expect, test } from "vitest";
import { coxData } from "../../src/statistics/cox-data.ts";
import { plainRisks } from "../../src/statistics/cox-risk-sums.ts";
import { tiledLogistic } from "../../src/statistics/kernels/tiled-logistic.ts";
import { tiledProducts } from "../../src/statistics/kernels/tiled-product.ts";
import { tiledRisks } from "../../src/statistics/kernels/tiled-risk-sums.ts";
import { logisticData } from "../../src/statistics/logistic-data.ts";
import { plainLogisticLikelihood } from "../../src/statistics/logistic-likelihood.ts";
import { seededRandom } from "../../src/statistics/seeded-random.ts";
import { mirror, plainProduct } from "../../src/statistics/weighted-product.ts";
import { compiledKernel, kernelFile } from "./kernel-source.ts";

// After a change of the source: npx vitest run tests/statistics/kernels.test.ts --update
test("the module that is kept is the one its source compiles to", async () => {
  const kept = "../../src/statistics/kernels/kernel-bytes.ts";
  await expect(kernelFile(await compiledKernel())).toMatchFileSnapshot(kept);
}, 60_000);

const sizes = fc.record({
  rows: fc.oneof(fc.integer({ min: 0, max: 40 }), fc.constantFrom(2975, 2976, 2977, 5953)),
  columns: fc.integer({ min: 1, max: 17 }),
  seed: fc.nat(),
});

type Size = typeof sizes extends fc.Arbitrary<infer S> ? S : never;

function columnsOf({ rows, columns, seed }: Size): Float64Array[] {
  const { uniform } = seededRandom(seed);
  const column = () => Float64Array.from({ length: rows }, () => 4 * uniform() - 2);
  return Array.from({ length: columns }, column);
}

/** The largest difference, as a share of the largest absolute value. */
function difference(ours: Float64Array, plain: Float64Array): number {
  expect(ours.length).toBe(plain.length);
  const largest = plain.reduce((most, value) => Math.max(most, Math.abs(value)), 1e-300);
  return ours.reduce((most, value, i) => Math.max(most, Math.abs(value - plain[i]!)), 0) / largest;
}

const check = (size: fc.Arbitrary<Size>, law: (size: Size) => void) =>
  fc.assert(fc.property(size, law), { seed: 4, numRuns: 60 });

test("compiled and plain loops give the same weighted product", () => {
  check(sizes, (size) => {
    const columns = columnsOf(size);
    const weights = columnsOf({ ...size, columns: 1, seed: size.seed + 1 })[0]!;
    const tiled = tiledProducts(columns, [weights])![0]!;
    mirror(tiled, size.columns);
    expect(difference(tiled, plainProduct(columns, weights))).toBeLessThan(1e-12);
  });
});

test("compiled and plain loops give the same logistic likelihood", () => {
  check(sizes, (size) => {
    const covariates = columnsOf(size);
    const { uniform } = seededRandom(size.seed + 2);
    const draw = () => Float64Array.from({ length: size.rows }, uniform);
    const outcome = draw().map(Math.round);
    const data = logisticData({ outcome, covariates, weight: draw(), offset: draw() });
    const coefficients = Float64Array.from(data.columns, () => 3 * uniform() - 1.5);
    const tiled = tiledLogistic(data, coefficients)!;
    mirror(tiled.information, data.columns.length);
    const plain = plainLogisticLikelihood(data, coefficients);
    const scale = 1 + Math.abs(plain.logLikelihood);
    expect(Math.abs(tiled.logLikelihood - plain.logLikelihood) / scale).toBeLessThan(1e-12);
    for (const part of ["score", "information", "probabilities", "variances"] as const) {
      expect(difference(tiled[part], plain[part])).toBeLessThan(1e-12);
    }
  });
});

test("compiled and plain loops give the same sums over risk sets", () => {
  check(sizes, (size) => {
    const { uniform, below } = seededRandom(size.seed + 3);
    const rows = { length: size.rows };
    // few days give long runs of tied rows, many give runs of one
    const days = size.seed % 2 === 0 ? 7 : 5000;
    const data = coxData({
      time: Int32Array.from(rows, () => below(days)),
      event: Uint8Array.from(rows, () => below(2)),
      covariates: columnsOf(size),
      weight: Float64Array.from(rows, () => 0.5 + uniform()),
      strata: Int32Array.from(rows, () => below(3)),
    });
    const coefficients = Float64Array.from(data.columns, () => 2 * uniform() - 1);
    const tiled = tiledRisks(data, coefficients)!;
    const plain = plainRisks(data, coefficients);
    expect(difference(tiled.risk, plain.risk)).toBeLessThan(1e-12);
    for (const part of ["events", "everyone"] as const) {
      tiled[part].forEach((sums, c) => {
        expect(difference(sums, plain[part][c]!)).toBeLessThan(1e-12);
      });
    }
  });
});

test("probabilities, risks and logarithms at the far ends are those of the plain loops", () => {
  const far = [-1e4, -800, -746, -740, -709, -40, -1e-9, 0, 1e-300, 0.3, 36, 700, 709.7, 711, 1e4];
  const data = logisticData({ outcome: far.map((_, i) => i % 2), covariates: [far] });
  const ours = tiledLogistic(data, [0, 1])!;
  const plain = plainLogisticLikelihood(data, [0, 1]);
  expect(Array.from(ours.probabilities)).toEqual(Array.from(plain.probabilities));
  expect(ours.logLikelihood / plain.logLikelihood).toBeCloseTo(1, 14);
});
