import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cusum } from "../../src/statistics/cusum.ts";
import { expectedRunLength } from "../../src/statistics/cusum-chain.ts";
import {
  bernoulliWeights,
  riskAdjustedWeights,
  shiftedRisk,
} from "../../src/statistics/cusum-weights.ts";
import {
  falseCompetence,
  learningCurveChain,
  learningCurveCusum,
  leastSuccesses,
} from "../../src/statistics/learning-curve-cusum.ts";
import { riskAdjustedCusum } from "../../src/statistics/risk-adjusted-cusum.ts";
import { expectClose, expectPrinted } from "./close-to.ts";
import { evenly } from "./even-numbers.ts";
import { expectNear } from "./near.ts";
import { readNumbers, readReference } from "./reference-data.ts";

const reference = readReference("monitoring");
const ten = readNumbers("racusum_small.csv");
const series = { failed: ten.y!, risk: ten.p!, limit: Infinity };

describe("the weights of a log-likelihood CUSUM", () => {
  it("agree with R at Parsonnet scores 0, 50 and 71 under Steiner's model (2000, p. 446)", () => {
    for (const { p, R, success, failure } of reference.weights) {
      const weights = riskAdjustedWeights(p, R);
      expectClose([weights.success, weights.failure], [success, failure]);
    }
  });

  it("print as in Rigdon and Fricker 2015, p. 226: score 19, survived, halved odds: 0.05083", () => {
    const risk = 1 / (1 + Math.exp(3.67 - 0.077 * 19));
    expectPrinted(riskAdjustedWeights(risk, 1 / 2).success, "0.05083");
  });

  it("by hand: 0.05 doubled to 0.10", () => {
    expectClose(Object.values(bernoulliWeights(0.05, 0.1)), [Math.log(2), Math.log(0.9 / 0.95)]);
    expectClose(riskAdjustedWeights(0.5, 3).failure, Math.log(3 / 2));
    expect(riskAdjustedWeights(0, 2).success).toBe(-0);
    expectClose(shiftedRisk(0.2, 4), 0.5);
  });

  it("of one risk are the Bernoulli weights, turn over with R, and have a mean below 0", () => {
    const risk = evenly(0.001, 0.999);
    const odds = evenly(0.05, 20);
    fc.assert(
      fc.property(risk, odds, (p, ratio) => {
        fc.pre(Math.abs(ratio - 1) > 1e-3);
        const { failure, success } = riskAdjustedWeights(p, ratio);
        const plain = bernoulliWeights(p, shiftedRisk(p, ratio));
        expectNear([failure, success], [plain.failure, plain.success], 1e-10);
        expect(p * failure + (1 - p) * success).toBeLessThan(0);
        const back = riskAdjustedWeights(shiftedRisk(p, ratio), 1 / ratio);
        expectNear([back.failure, back.success], [-failure, -success], 1e-10);
      }),
      { seed: 51, numRuns: 200 },
    );
    expect(() => riskAdjustedWeights(0.1, 1)).toThrow("oddsRatio is 1; expected a change");
    expect(() => riskAdjustedWeights(1.1, 2)).toThrow(/risk is 1.1/);
    expect(() => bernoulliWeights(0, 0.1)).toThrow(/expected is 0/);
  });
});

describe("the cumulative sum", () => {
  it("by hand, with and without a new start after a signal", () => {
    const steps = [1, -3, 2, 2, 1, -1];
    expect(cusum(steps, { limit: 4 })).toEqual({
      values: Float64Array.of(1, 0, 2, 4, 1, 0),
      signals: [3],
    });
    expect(cusum(steps, { limit: 4, restarts: false })).toEqual({
      values: Float64Array.of(1, 0, 2, 4, 5, 4),
      signals: [3],
    });
    expect(cusum([3, -9, 5], { limit: 4, restarts: false }).signals).toEqual([2]);
    expect(cusum([1, 1], { limit: 4, start: 2 })).toMatchObject({ signals: [1] });
  });

  it("without operations is empty; refuses limits and starts that cannot be", () => {
    expect(cusum([], { limit: 1 })).toEqual({ values: new Float64Array(0), signals: [] });
    expect(() => cusum([1], { limit: 0 })).toThrow(/limit is 0/);
    expect(() => cusum([1], { limit: 2, start: 2 })).toThrow(/start is 2/);
    expect(() => cusum([Number.NaN], { limit: 2 })).toThrow(/increments\[0\] is NaN/);
  });

  it("is the sum less the lowest it had been, and signals more under a lower limit", () => {
    const steps = fc.array(fc.integer({ min: -5, max: 5 }), { maxLength: 60 });
    fc.assert(
      fc.property(steps, (increments) => {
        const { values } = cusum(increments, { limit: Infinity });
        let sum = 0;
        let least = 0;
        increments.forEach((x, i) => {
          sum += x;
          least = Math.min(least, sum);
          expect(values[i]).toBe(sum - least);
        });
        const count = (limit: number) => cusum(increments, { limit }).signals.length;
        expect(count(4)).toBeGreaterThanOrEqual(count(9));
      }),
      { seed: 52, numRuns: 200 },
    );
  });
});

describe("the risk-adjusted CUSUM", () => {
  it("of ten cases agrees with R, for doubled and for halved odds (drawn downwards)", () => {
    expectClose(riskAdjustedCusum({ ...series, oddsRatio: 2 }).values, reference.upper);
    expectClose(riskAdjustedCusum({ ...series, oddsRatio: 1 / 2 }).values, reference.lower);
  });

  it("signals, starts again and reports what each operation added", () => {
    const chart = riskAdjustedCusum({ ...series, oddsRatio: 2, limit: 0.8 });
    expect(chart.signals).toEqual([3, 9]);
    expectClose(chart.values[4]!, Math.log(2 / 1.2));
    expectClose(chart.increments[0]!, -Math.log(1.05));
    const better = riskAdjustedCusum({ ...series, failed: new Array(10).fill(0), oddsRatio: 0.5 });
    expect(better.values.every((value, i) => i === 0 || value < better.values[i - 1]!)).toBe(true);
  });

  it("with all or no failures rises or stays at 0; without operations is empty", () => {
    const never = riskAdjustedCusum({ ...series, failed: new Array(10).fill(0), oddsRatio: 2 });
    expect([...never.values]).toEqual(new Array(10).fill(0));
    const always = riskAdjustedCusum({ ...series, failed: new Array(10).fill(1), oddsRatio: 2 });
    expectClose(
      always.values[9]!,
      always.increments.reduce((a, b) => a + b, 0),
    );
    const none = riskAdjustedCusum({ failed: [], risk: [], limit: 3, oddsRatio: 2 });
    expect(none.values).toHaveLength(0);
    expect(() => riskAdjustedCusum({ ...series, risk: [0.1], oddsRatio: 2 })).toThrow(/expected/);
    expect(() => riskAdjustedCusum({ ...series, failed: [2], risk: [0.1], oddsRatio: 2 })).toThrow(
      /event\[0\] is 2/,
    );
  });
});

describe("the learning-curve CUSUM", () => {
  const design = { acceptable: 0.1, unacceptable: 0.2, limit: 1.25 };

  it("by hand: ln(0.9 / 0.8) up for a success, ln 2 down for a failure", () => {
    const up = Math.log(0.9 / 0.8);
    expectClose(learningCurveCusum([0, 0, 1, 0], design).values, [up, 2 * up, 0, up]);
    expect(leastSuccesses(design)).toBe(11);
    expect(leastSuccesses({ ...design, acceptable: 0.13, unacceptable: 0.25 })).toBe(9);
    expect(leastSuccesses({ ...design, acceptable: 0.15, unacceptable: 0.3 })).toBe(7);
    expect(learningCurveCusum([], design)).toEqual({ values: new Float64Array(0), signals: [] });
  });

  it("signals at case 19 of a worked series and is drawn on past it", () => {
    const failed = [1, 0, 0, 0, 0, 0, 0, 0, 1, ...new Array(16).fill(0)];
    const path = learningCurveCusum(failed, design);
    expectPrinted(path.values[7]!, "0.8244812496");
    expectPrinted(path.values[8]!, "0.1313340690");
    expectPrinted(path.values[18]!, "1.3091644256");
    expect(path.signals).toEqual([18]);
    expect(path.values[24]!).toBeGreaterThan(1.9);
  });

  it("has a false signal as often as 11 successes in a row come at 20%, to begin with", () => {
    const within = falseCompetence(design, 60);
    expectClose(within[10]!, 0.8 ** 11, 1e-9);
    expect(within[9]).toBe(0);
    expect(within[59]!).toBeGreaterThan(within[10]!);
    const trained = expectedRunLength(learningCurveChain(design, 0.05));
    expect(trained).toBeLessThan(expectedRunLength(learningCurveChain(design, 0.2)));
    expect(() => falseCompetence({ ...design, acceptable: 0.2 }, 5)).toThrow(/acceptable is 0.2/);
  });
});
