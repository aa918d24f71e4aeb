import { cusum } from "../../../statistics/cusum.ts";
import {
  type CusumStep,
  cusumChain,
  expectedRunLength,
  signalProbabilities,
} from "../../../statistics/cusum-chain.ts";
import { outcomeSteps } from "../../../statistics/cusum-run-length.ts";
import { bernoulliWeights, type OutcomeWeights } from "../../../statistics/cusum-weights.ts";
import type { LearningDesign } from "./learning-design.ts";

/** Reached, not reached, or cannot tell yet, with the odds of a wrong call. */
export interface ThreeWay {
  readonly verdict: "reached" | "not reached" | "cannot tell yet";
  /** The operation that decided last; undefined while none did. */
  readonly decidedAt: number | undefined;
  /** Evidence for the acceptable rate; starts from doubt. */
  readonly up: OneWay;
  /** Evidence for the unacceptable rate. */
  readonly down: OneWay;
}

export interface OneWay {
  readonly limit: number;
  readonly values: Float64Array;
  readonly signals: readonly number[];
  /** The probability of a wrong call within the agreed number of operations, as it really is. */
  readonly wrongly: number;
  /** The probability of a right one within them. */
  readonly rightly: number;
  /** Operations until the limit on average, from the first on: of a wrong call, and of a right one. */
  readonly runLengthWrongly: number;
  readonly runLengthRightly: number;
  /** More operations until the limit, on average, from where the sum is, if the call is right. */
  readonly moreOnAverage: number;
  /** Operations that all go that way until the limit. */
  readonly moreAtLeast: number;
}

/**
 * The learning-curve CUSUM (Biau et al., British Journal of Surgery 2008;95:925) and its mirror image.
 * One sum gathers evidence for the acceptable rate and assumes the unacceptable one until its limit;
 * the other the reverse. Each limit is the least at which the wrong rate passes it within the agreed
 * number of operations with no more than the agreed probability (Markov chain). The sum that reached its limit last
 * decides; while neither has, nothing can be told. Both begin again at 0 after reaching it.
 */
export function threeWay(failed: readonly boolean[], design: LearningDesign): ThreeWay {
  const { acceptable, unacceptable } = design;
  const up = oneWay(failed, design, { assumed: unacceptable, shown: acceptable });
  const down = oneWay(failed, design, { assumed: acceptable, shown: unacceptable });
  const [lastUp = -1, lastDown = -1] = [up.signals.at(-1), down.signals.at(-1)];
  const decidedAt = Math.max(lastUp, lastDown);
  const verdict = decidedAt < 0 ? "cannot tell yet" : lastUp > lastDown ? "reached" : "not reached";
  return { verdict, decidedAt: decidedAt < 0 ? undefined : decidedAt, up, down };
}

interface Rates {
  readonly assumed: number;
  readonly shown: number;
}

function oneWay(failed: readonly boolean[], design: LearningDesign, rates: Rates): OneWay {
  const weights = bernoulliWeights(rates.assumed, rates.shown);
  const limit = leastLimit(weights, design, rates.assumed);
  const increments = failed.map((each) => (each ? weights.failure : weights.success));
  const { values, signals } = cusum(increments, { limit });
  const last = values.at(-1) ?? 0;
  const now = last >= limit ? 0 : last;
  const within = (rate: number) =>
    signalWithin(outcomeSteps(weights, rate), limit, design.operations);
  const runLength = (rate: number, start = 0) =>
    expectedRunLength(cusumChain(outcomeSteps(weights, rate), { limit, states }), start);
  const stride = Math.max(weights.success, weights.failure);
  return {
    limit,
    values,
    signals,
    wrongly: within(rates.assumed),
    rightly: within(rates.shown),
    runLengthWrongly: runLength(rates.assumed),
    runLengthRightly: runLength(rates.shown),
    moreOnAverage: runLength(rates.shown, now),
    moreAtLeast: Math.ceil((limit - now) / stride - 1e-9),
  };
}

const states = 400;

function signalWithin(steps: readonly CusumStep[], limit: number, operations: number): number {
  return signalProbabilities(cusumChain(steps, { limit, states }), operations).at(-1) ?? 0;
}

/** The least limit with a wrong call no more probable than agreed, to a ten-thousandth. */
function leastLimit(weights: OutcomeWeights, design: LearningDesign, rate: number): number {
  const steps = outcomeSteps(weights, rate);
  const isSafe = (limit: number) => signalWithin(steps, limit, design.operations) <= design.wrongly;
  let [below, above] = [0, 1];
  while (!isSafe(above)) [below, above] = [above, above * 1.5];
  while (above - below > 1e-4) {
    const middle = (above + below) / 2;
    if (isSafe(middle)) above = middle;
    else below = middle;
  }
  return above;
}
