/**
 * The Aalen–Johansen estimate of cumulative incidence with competing causes: the share of rows that
 * has had an event of a cause by a time, when an event of another cause makes it impossible.
 *
 *   F_k(t) = sum over event times u <= t of S(u-) d_k(u) / n(u),
 * S the Kaplan–Meier estimate with every cause an event (Aalen and Johansen 1978; Kalbfleisch and
 * Prentice 1980). All F_k and S add up to 1. One minus the Kaplan–Meier estimate of a cause with the
 * others censored is larger, and is no probability of this world. Variances: `incidence-variance.ts`.
 * Limits by the log-log transformation of F unless another is asked for, as `survival-limits.ts` has
 * them; before the first event of a cause they are [0, 1 - ((1 - level) / 2)^(1 / atRisk)], the exact
 * binomial ones of those still at risk.
 */
import { requireLevel } from "./argument-checks.ts";
import { type CauseFollowUp, tallyCauses } from "./cause-tally.ts";
import { added } from "./gather.ts";
import {
  type IncidenceSteps,
  type IncidenceVariance,
  incidenceVariance,
} from "./incidence-variance.ts";
import { type SurvivalLimits, survivalLimits } from "./survival-limits.ts";

export interface CauseIncidence {
  /** The number of the cause, from 1. */
  readonly cause: number;
  readonly events: Float64Array;
  readonly incidence: Float64Array;
  readonly standardError: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
}

export interface CumulativeIncidence {
  readonly time: Float64Array;
  readonly atRisk: Float64Array;
  readonly censored: Float64Array;
  /** The share without an event of any cause. */
  readonly survival: Float64Array;
  /** One for each cause, in the order of their numbers. */
  readonly causes: readonly CauseIncidence[];
  readonly level: number;
  readonly limits: SurvivalLimits;
  readonly total: number;
  /** Patients at risk at each time, where limits are clustered by them. */
  readonly clustersAtRisk?: Float64Array;
}

export interface AalenJohansenInput extends CauseFollowUp {
  readonly limits?: SurvivalLimits;
  readonly level?: number;
  /** "delta" unless said. */
  readonly variance?: IncidenceVariance;
}

/** The incidence of each cause at each distinct time; empty columns for no rows. */
export function aalenJohansen(input: AalenJohansenInput): CumulativeIncidence {
  const { limits = "log-log", level = 0.95, variance = "delta" } = input;
  requireLevel(level);
  const { time, atRisk, censored, events } = tallyCauses(input);
  const allEvents = events.reduce(added, new Float64Array(time.length));
  const survival = survivalOf(atRisk, allEvents);
  const causes = events.map((column, k) => {
    const counts = { atRisk, allEvents, events: column, survival };
    const incidence = incidenceOf(counts);
    const standardError = rootsOf(incidenceVariance({ ...counts, incidence }, variance));
    const steps = { ...counts, incidence, standardError };
    return {
      cause: k + 1,
      events: column,
      incidence,
      standardError,
      ...incidenceLimits(steps, survivalLimits(limits, level)),
    };
  });
  return { time, atRisk, censored, survival, causes, level, limits, total: input.time.length };
}

function survivalOf(atRisk: Float64Array, events: Float64Array): Float64Array {
  const curve = new Float64Array(atRisk.length);
  let survival = 1;
  for (let j = 0; j < curve.length; j++) {
    const [d, n] = [events[j]!, atRisk[j]!];
    if (d > 0) survival = d >= n * (1 - 1e-12) ? 0 : survival * (1 - d / n);
    curve[j] = survival;
  }
  return curve;
}

function incidenceOf({ atRisk, events, survival }: IncidenceSteps): Float64Array {
  const curve = new Float64Array(atRisk.length);
  let incidence = 0;
  for (let j = 0; j < curve.length; j++) {
    const before = j === 0 ? 1 : survival[j - 1]!;
    incidence += before * (events[j]! / atRisk[j]!);
    curve[j] = Math.min(1, incidence);
  }
  return curve;
}

function rootsOf(squares: Float64Array): Float64Array {
  const roots = new Float64Array(squares.length);
  for (let j = 0; j < roots.length; j++) roots[j] = Math.sqrt(squares[j]!);
  return roots;
}

/** Limits at each time; they stay where they are at times without an event of the cause. */
export function incidenceLimits(
  curve: {
    atRisk: Float64Array;
    events: Float64Array;
    incidence: Float64Array;
    standardError: Float64Array;
  },
  limitsAt: ReturnType<typeof survivalLimits>,
) {
  const lower = new Float64Array(curve.atRisk.length);
  const upper = new Float64Array(curve.atRisk.length);
  let bounds: readonly [number, number] = [0, 1];
  for (let j = 0; j < lower.length; j++) {
    const survival = curve.incidence[j]!;
    const relativeError = curve.standardError[j]! / survival;
    if (curve.events[j]! > 0 || survival === 0) {
      bounds = limitsAt({ survival, relativeError, atRisk: curve.atRisk[j]! });
    }
    lower[j] = bounds[0];
    upper[j] = bounds[1];
  }
  return { lower, upper };
}
