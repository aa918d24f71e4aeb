/**
 * The Nelson–Aalen estimate of the cumulative hazard.
 *
 * H(t) is the sum over event times u <= t of d(u) / n(u), with variance the sum of d / n^2 (Nelson
 * 1969; Aalen 1978). Limits on the scale of the logarithm, H exp(-+z SE(H) / H). Before the first
 * event H is 0 and its upper limit is the exact Poisson one for no event among those still at risk,
 * -ln((1 - level) / 2) / atRisk. exp(-H) is the Breslow (Fleming–Harrington) survival estimate.
 *
 * The 95% limits hold the true hazard in 93 to 97% of samples of 20 to 500 eyes (counted in the
 * tables of real coverage among the tests).
 */
import { requireLevel } from "./argument-checks.ts";
import { normalDeviate } from "./distributions.ts";
import { type EventTally, type FollowUp, tallyEvents } from "./event-tally.ts";

export interface CumulativeHazard extends EventTally {
  readonly hazard: Float64Array;
  readonly standardError: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** exp(-hazard). */
  readonly survival: Float64Array;
  readonly level: number;
}

/** The cumulative hazard at each distinct time; empty columns for no rows. */
export function nelsonAalen(input: FollowUp & { readonly level?: number }): CumulativeHazard {
  const { level = 0.95 } = input;
  requireLevel(level);
  const tally = tallyEvents(input);
  const deviate = normalDeviate(level);
  const column = () => new Float64Array(tally.time.length);
  const out = { hazard: column(), standardError: column(), lower: column(), upper: column() };
  let hazard = 0;
  let variance = 0;
  for (let j = 0; j < tally.time.length; j++) {
    hazard += tally.events[j]! / tally.atRisk[j]!;
    variance += tally.events[j]! / tally.atRisk[j]! ** 2;
    const error = Math.sqrt(variance);
    const factor = hazard === 0 ? 1 : Math.exp((deviate * error) / hazard);
    out.hazard[j] = hazard;
    out.standardError[j] = error;
    out.lower[j] = hazard / factor;
    const isBefore = hazard === 0;
    out.upper[j] = isBefore ? -Math.log((1 - level) / 2) / tally.atRisk[j]! : hazard * factor;
  }
  return { ...tally, ...out, survival: out.hazard.map((h) => Math.exp(-h)), level };
}
