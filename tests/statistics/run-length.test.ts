import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addTo, bandIdentity, solveBand } from "../../src/statistics/band-matrix.ts";
import {
  bernoulliChain,
  bernoulliCusum,
  latticeChain,
  latticeRate,
} from "../../src/statistics/bernoulli-cusum.ts";
import {
  cusumChain,
  expectedRunLength,
  signalProbabilities,
} from "../../src/statistics/cusum-chain.ts";
import {
  cusumLimit,
  cusumRunLength,
  cusumSignalProbabilities,
  outcomeSteps,
  riskAdjustedChain,
  riskAdjustedSteps,
} from "../../src/statistics/cusum-run-length.ts";
import { bernoulliWeights } from "../../src/statistics/cusum-weights.ts";
import { normalLowerTail } from "../../src/statistics/distributions.ts";
import { gaussLegendre } from "../../src/statistics/gauss-legendre.ts";
import {
  normalCusumRunLength,
  normalEwmaRunLength,
  twoSidedCusumRunLength,
} from "../../src/statistics/normal-run-length.ts";
import { expectClose } from "./close-to.ts";
import { evenly } from "./even-numbers.ts";
import { expectNear } from "./near.ts";
import { readReference } from "./reference-data.ts";

const reference = readReference("monitoring");
const risks = [
  { risk: 0.05, share: 0.5 },
  { risk: 0.1, share: 0.3 },
  { risk: 0.25, share: 0.2 },
];
const mix = { risks, oddsRatio: 2 };

describe("a CUSUM on a lattice (Reynolds and Stoumbos 1999)", () => {
  it("has exactly R's run lengths and probabilities of a signal", () => {
    for (const { p, m, H, arl, within } of reference.lattice) {
      const chain = latticeChain(m, { rate: p, steps: H });
      expectClose(expectedRunLength(chain), arl);
      const signals = signalProbabilities(chain, 200);
      expectNear([signals[9]!, signals[59]!, signals[199]!], within, 1e-12);
    }
  });

  it("by hand: a limit of one failure waits 1 / p; two in a row wait (1 + p) / p^2", () => {
    expectClose(expectedRunLength(latticeChain(2, { rate: 0.2, steps: 1 })), 5);
    // up 1, down 1, limit 2: two failures in a row
    expectClose(expectedRunLength(latticeChain(2, { rate: 0.2, steps: 2 })), 1.2 / 0.04);
    expectClose(signalProbabilities(latticeChain(2, { rate: 0.2, steps: 2 }), 3), [
      0,
      0.04,
      0.04 + 0.8 * 0.04,
    ]);
  });

  it("never signals without failures, signals at once when one is enough for all", () => {
    expect(expectedRunLength(latticeChain(7, { rate: 0, steps: 20 }))).toBe(Infinity);
    expect([...signalProbabilities(latticeChain(7, { rate: 0, steps: 20 }), 3)]).toEqual([0, 0, 0]);
    expectClose(expectedRunLength(latticeChain(21, { rate: 1, steps: 20 })), 1);
    expect(signalProbabilities(latticeChain(7, { rate: 0.1, steps: 20 }), 0)).toHaveLength(0);
  });

  it("does not change when all is measured in another unit or on a finer lattice", () => {
    const steps = outcomeSteps({ failure: 6, success: -1 }, 0.1);
    const scaled = steps.map(({ change, probability }) => ({ change: change * 0.07, probability }));
    const plain = expectedRunLength(cusumChain(steps, { limit: 20, states: 20 }));
    expectClose(expectedRunLength(cusumChain(scaled, { limit: 1.4, states: 20 })), plain);
    expectClose(expectedRunLength(cusumChain(steps, { limit: 20, states: 200 })), plain);
  });

  it("waits the sum of the chances of no signal yet, and less after a head start", () => {
    const chain = latticeChain(4, { rate: 0.2, steps: 8 });
    const signals = signalProbabilities(chain, 4000);
    const waiting = signals.reduce((sum, p) => sum + (1 - p), 1);
    expectClose(waiting, expectedRunLength(chain), 1e-9);
    expect(expectedRunLength(chain, 4)).toBeLessThan(expectedRunLength(chain));
    expect(() => expectedRunLength(chain, 8)).toThrow(/start is 8/);
  });

  it("refuses probabilities that do not sum to 1, and limits that are none", () => {
    expect(() => cusumChain([{ change: 1, probability: 0.5 }], { limit: 2 })).toThrow(/sum to 0.5/);
    expect(() => cusumChain([{ change: 1, probability: 1 }], { limit: 0 })).toThrow(/limit is 0/);
  });
});

describe("the Bernoulli CUSUM", () => {
  it("by hand: 10% against 20%", () => {
    const options = { expected: 0.1, watched: 0.2, limit: 1 };
    const path = bernoulliCusum([1, 0, 1, 1], options);
    const [up, down] = [Math.log(2), Math.log(0.8 / 0.9)];
    expectClose(path.values, [up, up + down, 2 * up + down, up]);
    expect(path.signals).toEqual([2]);
    expect(bernoulliCusum([], options).values).toHaveLength(0);
    // for a better rate a success is what adds
    const better = bernoulliCusum([0, 0], { ...options, watched: 0.05 });
    expectClose(better.values[1]!, 2 * Math.log(0.95 / 0.9));
  });

  it("has lattice rates near a doubled one (m = 7 at 10%, 14 at 5%, 72 at 1%)", () => {
    const rates = [
      [0.1, 7, 0.1943579583],
      [0.05, 14, 0.0977441979],
      [0.01, 72, 0.0186596828],
    ] as const;
    for (const [expected, m, watched] of rates) {
      const lattice = latticeRate(expected, m);
      expectClose(lattice.watched, watched, 1e-8);
      const { failure, success } = bernoulliWeights(expected, lattice.watched);
      expectClose([failure / lattice.step, success / lattice.step], [m - 1, -1]);
    }
    expectClose(latticeRate(0.1, 7).step, 0.1107552365, 1e-9);
    expect(() => latticeRate(0.1, 10)).toThrow(/m is 10; expected from 2 to below/);
  });

  it("measured in log-likelihood has the run length of its lattice", () => {
    const { watched, step } = latticeRate(0.1, 7);
    const design = { expected: 0.1, watched };
    const chain = bernoulliChain(design, { limit: 20 * step, rate: 0.1, states: 20 });
    expectClose(
      expectedRunLength(chain),
      expectedRunLength(latticeChain(7, { rate: 0.1, steps: 20 })),
    );
  });
});

describe("run lengths of the risk-adjusted CUSUM for a mix of risks", () => {
  it("lie within the error of simulations in R", () => {
    for (const { odds, mean, se, within50 } of reference.simulated) {
      const chain = riskAdjustedChain({ ...mix, actualOddsRatio: odds }, 3);
      expectNear(expectedRunLength(chain), mean, 3 * se);
      const spread = Math.sqrt((within50 * (1 - within50)) / 1500);
      const drifting = { ...mix, actualOddsRatio: odds };
      const within = cusumSignalProbabilities(drifting, { limit: 3, operations: 50 });
      expectNear(within[49]!, within50, 3 * spread);
    }
  });

  it("settle as states grow: 890.3 in control, 80.98 under doubled odds", () => {
    for (const states of [300, 1000]) {
      expectNear(cusumRunLength({ ...mix, states }, 3), 890.3, 2);
      expectNear(cusumRunLength({ ...mix, states, actualOddsRatio: 2 }, 3), 80.976, 0.06);
    }
  });

  it("find the limit of a stated run length again", () => {
    for (const runLength of [50, 500, 9000]) {
      const limit = cusumLimit(mix, runLength)!;
      expectClose(cusumRunLength(mix, limit), runLength, 2e-3);
    }
    expectNear(cusumLimit(mix, 890.3)!, 3, 0.01);
    const down = { ...mix, oddsRatio: 1 / 2 };
    expectClose(cusumRunLength(down, cusumLimit(down, 1000)!), 1000, 2e-3);
    expect(cusumLimit(mix, 2)).toBeNull();
    expect(() => cusumLimit(mix, 1)).toThrow(/runLength is 1/);
  });

  it("are one for a list of risks and for their shares", () => {
    const list = [0.05, 0.05, 0.05, 0.05, 0.05, 0.1, 0.1, 0.1, 0.25, 0.25];
    expectClose(cusumRunLength({ risks: list, oddsRatio: 2 }, 3), cusumRunLength(mix, 3));
    expect(() => riskAdjustedSteps({ risks: [], oddsRatio: 2 })).toThrow(/risks are none/);
  });

  it("grow with the limit and shrink as the true odds rise", () => {
    const limit = evenly(0.5, 4);
    fc.assert(
      fc.property(limit, evenly(1.2, 4), (h, odds) => {
        const at = (actualOddsRatio: number, by = 1) =>
          cusumRunLength({ ...mix, states: 200, actualOddsRatio }, h * by);
        expect(at(odds)).toBeLessThan(at(1));
        expect(at(1, 1.3)).toBeGreaterThan(at(1));
      }),
      { seed: 61, numRuns: 25 },
    );
  });
});

describe("run lengths of normal charts", () => {
  it("of the CUSUM agree with R (Simpson's rule), one-sided and two-sided", () => {
    for (const { h, mean, arl } of reference.normal) {
      expectClose(normalCusumRunLength({ reference: 0.5, limit: h, mean }), arl, 1e-7);
    }
    // the textbook pair 168 and 465 for k = 0.5 (Montgomery, from memory) in more digits
    expectClose(twoSidedCusumRunLength({ reference: 0.5, limit: 4 }), 335.367577 / 2, 1e-7);
    expectClose(twoSidedCusumRunLength({ reference: 0.5, limit: 5 }), 930.887007 / 2, 1e-7);
  });

  it("refuse a mean or a reference value that is missing", () => {
    const missing = { reference: 0.5, limit: 4, mean: Number.NaN };
    expect(() => normalCusumRunLength(missing)).toThrow("mean is NaN");
    expect(() => normalCusumRunLength({ reference: Number.NaN, limit: 4 })).toThrow(
      "reference is NaN",
    );
    const noMean = { newest: 0.1, width: 3, mean: Number.NaN };
    expect(() => normalEwmaRunLength(noMean)).toThrow("mean is NaN");
  });

  it("of the EWMA agree with R (Simpson's rule)", () => {
    for (const { newest, width, mean, arl } of reference.ewma) {
      expectClose(normalEwmaRunLength({ newest, width, mean }), arl, 1e-7);
    }
  });

  it("by hand: the EWMA of the newest value alone is Shewhart's chart", () => {
    const beyond = 2 * normalLowerTail(-3);
    expectClose(normalEwmaRunLength({ newest: 1, width: 3 }), 1 / beyond, 1e-9);
    // a CUSUM with a tiny limit signals at the first value above the reference
    const tiny = normalCusumRunLength({ reference: 1, limit: 1e-9 });
    expectClose(tiny, 1 / normalLowerTail(-1), 1e-7);
  });

  it("with Brook and Evans's states (1972) are what R gives for the same states", () => {
    for (const { h, states, arl } of reference.brook) {
      const width = (2 * h) / (2 * states - 1);
      const matrix = bandIdentity(states, states, states);
      const upTo = (z: number) => normalLowerTail(z + width / 2 + 0.5);
      for (let row = 0; row < states; row++) {
        for (let column = 0; column < states; column++) {
          const move = (column - row) * width;
          const below = column === 0 ? 0 : upTo(move - width);
          addTo(matrix, { row, column }, below - upTo(move));
        }
      }
      expectClose(solveBand(matrix, new Float64Array(states).fill(1))[0]!, arl);
    }
  });
});

describe("the parts", () => {
  it("Gauss–Legendre integrates polynomials up to degree 2n - 1 exactly", () => {
    const { nodes, weights } = gaussLegendre(2, -1, 1);
    expectClose(nodes, [-1 / Math.sqrt(3), 1 / Math.sqrt(3)]);
    expectClose(weights, [1, 1]);
    for (const count of [1, 5, 20, 100]) {
      const rule = gaussLegendre(count, 0, 2);
      const degree = Math.min(2 * count - 1, 30);
      const sum = rule.nodes.reduce((a, x, i) => a + rule.weights[i]! * x ** degree, 0);
      expectClose(sum, 2 ** (degree + 1) / (degree + 1), 1e-12);
    }
  });

  it("a band system by hand: 2x - y = 1, -x + 2y = 1", () => {
    const matrix = bandIdentity(2, 1, 1);
    addTo(matrix, { row: 0, column: 0 }, 1);
    addTo(matrix, { row: 1, column: 1 }, 1);
    addTo(matrix, { row: 0, column: 1 }, -1);
    addTo(matrix, { row: 1, column: 0 }, -1);
    expectClose(solveBand(matrix, Float64Array.of(1, 1)), [1, 1]);
    expectClose(solveBand(bandIdentity(1, 0, 0), Float64Array.of(7)), [7]);
  });
});
