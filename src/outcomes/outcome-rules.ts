/**
 * What counts as a failure. Published audits differ, so every answer names its definition.
 *
 * - `redetachment`: the retina detached again, treated or not, or never lay flat after the
 *   primary repair. A further operation for the detachment is taken as proof that it had
 *   detached, on the day of that operation where no earlier day is recorded.
 * - `reoperation`: any further operation for the detachment; removing oil alone is not one. An
 *   eye that never lay flat after the primary repair has failed as well.
 * - `not attached without oil`: at the last visit detached, or attached only under oil.
 * - `detached at last visit`: after all operations (final failure).
 *
 * The first two are dated events; a retina that never lay flat fails on day 0. The last two are
 * states read once, at the last visit: they have no time, so no curve and no window belongs to
 * them, and an eye counts whenever its last visit was.
 */
export const failureDefinitions = [
  "redetachment",
  "reoperation",
  "not attached without oil",
  "detached at last visit",
] as const;
export type FailureDefinition = (typeof failureDefinitions)[number];

/** Whether the definition is a dated event, not a state read at the last visit. */
export function isDatedEvent(failure: FailureDefinition): boolean {
  return failure === "redetachment" || failure === "reoperation";
}

/**
 * Under oil the retina is held up, so the eye is not truly at risk. How eyes with silicone oil
 * are followed:
 *
 * - `followed from removal`: the clock of an eye whose primary repair put oil in starts on the
 *   day it came out; one that failed before counts as failed on day 0 of that clock, so that
 *   those still under oil stand beside it; with the oil still in, the outcome is not decided;
 * - `censored at insertion`: followed up to the day the oil went in and no further;
 * - `counted as attached`: followed like any other eye;
 * - `counted as failed`: an eye with oil in at its last visit has failed on that day.
 *
 * Under the definition `not attached without oil` an eye with oil in has failed by definition.
 */
export const oilTreatments = [
  "followed from removal",
  "censored at insertion",
  "counted as attached",
  "counted as failed",
] as const;
export type OilTreatment = (typeof oilTreatments)[number];

/**
 * Eyes whose outcome is not decided (fluid under observation at the last visit, its state not
 * recorded, or an outcome written in the file that could not be read): `bounds` and `censored`
 * both follow them as long as they are known not to have failed, and `bounds` also gives every
 * rate with both extremes; `failed` and `attached` decide them so, at the last visit or at the
 * window's end, whichever comes first.
 */
export const undecidedTreatments = ["bounds", "censored", "failed", "attached"] as const;
export type UndecidedTreatment = (typeof undecidedTreatments)[number];

export interface OutcomeRules {
  readonly failure: FailureDefinition;
  readonly oil: OilTreatment;
  readonly undecided: UndecidedTreatment;
  /** Follow-up ends here; absent: to the last visit. In the record's own unit of time. */
  readonly window?: TimeWindow;
}

export interface TimeWindow {
  readonly length: number;
  /** "12 months", as the reader wrote it. */
  readonly text: string;
}
