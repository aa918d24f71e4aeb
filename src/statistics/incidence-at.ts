/**
 * Reading a cumulative incidence, a step function continuous from the right, at a time. Before the first
 * event it is 0; after the last observed time it is known only when nobody was left without an event, and
 * null otherwise: the last value is never carried on.
 */
import type { CumulativeIncidence } from "./aalen-johansen.ts";
import type { SurvivalEstimate } from "./survival-at.ts";
import { stepAt } from "./survival-at.ts";

/** Incidence of `cause` (from 1) at time `t` with its limits; null where not estimable. */
export function incidenceAt(
  curves: CumulativeIncidence,
  cause: number,
  t: number,
): SurvivalEstimate | null {
  const curve = curves.causes[cause - 1];
  if (curve === undefined) {
    throw new RangeError(`cause is ${cause}; expected 1 to ${curves.causes.length}`);
  }
  if (!(t >= 0 && t < Infinity)) {
    throw new RangeError(`the time is ${t}; expected a finite number of 0 or more`);
  }
  const last = curves.time.length - 1;
  if (last < 0) return null;
  const position = stepAt(curves, t);
  const isOnStep = position >= 0 && Math.abs(curves.time[position]! - t) <= t * 1e-9;
  const next = isOnStep ? position : position + 1;
  if (next > last && curves.survival[last]! > 0) return null;
  const atRisk = next > last ? 0 : curves.atRisk[next]!;
  if (position < 0) {
    const independent = curves.clustersAtRisk?.[next] ?? atRisk;
    const upper = 1 - ((1 - curves.level) / 2) ** (1 / independent);
    return { estimate: 0, standardError: 0, lower: 0, upper, atRisk };
  }
  return {
    estimate: curve.incidence[position]!,
    standardError: curve.standardError[position]!,
    lower: curve.lower[position]!,
    upper: curve.upper[position]!,
    atRisk,
  };
}
