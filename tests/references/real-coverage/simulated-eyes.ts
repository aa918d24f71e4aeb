/**
 * Eyes drawn for the tables of real coverage. P(failed by day 180) is the rate; times to failure follow a
 * Weibull distribution of shape 0.7 (most failures are early), in whole days, rounded up; follow-up ends
 * evenly between day 90 and day 720.
 */
import type { RandomSource } from "../../../src/statistics/seeded-random.ts";

export const SHAPE = 0.7;

export interface Simulation {
  readonly eyes: number;
  readonly rate: number;
  readonly day: number;
  readonly random: RandomSource;
}

/** The day on which an eye fails whose chance to have failed by then is `share`. */
export function failureDay(share: number, { rate, day }: Pick<Simulation, "rate" | "day">): number {
  const scale = day / (-Math.log1p(-rate)) ** (1 / SHAPE);
  return Math.ceil(scale * (-Math.log1p(-share)) ** (1 / SHAPE));
}

/** Times and events of one series. */
export function simulatedEyes({ eyes, rate, day, random }: Simulation) {
  const time = new Float64Array(eyes);
  const event = new Uint8Array(eyes);
  for (let i = 0; i < eyes; i++) {
    const failure = failureDay(random.uniform(), { rate, day });
    const end = 90 + random.below(631);
    time[i] = Math.min(failure, end);
    event[i] = failure <= end ? 1 : 0;
  }
  return { time, event };
}
