import { aalenJohansen } from "../../statistics/aalen-johansen.ts";
import { incidenceAt } from "../../statistics/incidence-at.ts";
import { kaplanMeier } from "../../statistics/kaplan-meier.ts";
import { survivalAt } from "../../statistics/survival-at.ts";
import { type CountedTimes, type PlacedEyes, placedEyes, type Side } from "./placed-follow-up.ts";

/** The share failed by a day: the lowest and the highest that the counts allow, and an interval. */
export interface ShareFailed {
  readonly day: number;
  readonly lowest: number;
  readonly highest: number;
  /** The lower limit at the lowest and the upper limit at the highest. */
  readonly lower: number;
  readonly upper: number;
}

/** The times of every department at each side: the same where all are told. */
export type TimesAtSide = (side: Side) => readonly CountedTimes[];

type Estimate = {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
} | null;

/** One less the Kaplan–Meier estimate; null where nobody was followed so long. */
export function shareFailed(times: TimesAtSide, day: number, days: number): ShareFailed | null {
  return between(times, { day, days }, (eyes) => {
    const at = survivalAt(kaplanMeier({ time: eyes.time, event: eyes.cause }), day);
    return at && { estimate: 1 - at.estimate, lower: 1 - at.upper, upper: 1 - at.lower };
  });
}

/** The Aalen–Johansen cumulative incidence of the failures looked at. */
export function shareOfCause(times: TimesAtSide, day: number, days: number): ShareFailed | null {
  return between(times, { day, days }, (eyes) =>
    incidenceAt(aalenJohansen({ ...eyes, causes: 2 }), 1, day),
  );
}

function between(
  times: TimesAtSide,
  { day, days }: { readonly day: number; readonly days: number },
  estimate: (eyes: PlacedEyes) => Estimate,
): ShareFailed | null {
  const at = (side: Side) => estimate(placedEyes(times(side), { at: day, side, days }));
  const [fewest, most] = [at("fewest"), at("most")];
  if (fewest === null || most === null) return null;
  return {
    day,
    lowest: fewest.estimate,
    highest: Math.max(fewest.estimate, most.estimate),
    lower: fewest.lower,
    upper: most.upper,
  };
}
