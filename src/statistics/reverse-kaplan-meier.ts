/**
 * The reverse Kaplan–Meier estimate: the distribution of follow-up, as it would have been had
 * nobody had the event. Its median is the median follow-up (Schemper and Smith 1996).
 *
 * Being censored is the event here and the event is a censoring. Tie rule: as everywhere, events
 * come before censorings on the same day, so those who had the event on a day can no longer be
 * lost on it: the risk set is the rows at risk less the events of that day. (Merely exchanging the
 * codes would put them back, and breaks the product of both curves = share still under observation.)
 */
import { requireLevel } from "./argument-checks.ts";
import { tallyEvents } from "./event-tally.ts";
import { type KaplanMeierInput, productLimit, type SurvivalCurve } from "./kaplan-meier.ts";

/** The curve of remaining under observation; `events` are the censorings. Input as for survival. */
export function reverseKaplanMeier(input: KaplanMeierInput): SurvivalCurve {
  const { limits = "log-log", level = 0.95 } = input;
  requireLevel(level);
  const { time, atRisk, events, censored } = tallyEvents(input);
  const stillObserved = atRisk.map((count, j) => count - events[j]!);
  const tally = { time, atRisk: stillObserved, events: censored, censored: events };
  return productLimit(tally, { limits, level, total: input.time.length });
}
