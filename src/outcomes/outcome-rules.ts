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
 * read at the last visit on the record, and charged to the day of that visit.
 */
export const failureDefinitions = [
  "redetachment",
  "reoperation",
  "not attached without oil",
  "detached at last visit",
] as const;
export type FailureDefinition = (typeof failureDefinitions)[number];

/**
 * Under oil the retina is held up, so the eye is not truly at risk. How eyes whose primary repair
 * put silicone oil in are followed:
 *
 * - `followed from removal`: the clock starts on the day the oil came out; a failure before that
 *   day counts, dated from the primary repair; with the oil still in, the outcome is not decided;
 * - `censored at insertion`: followed up to the day the oil went in and no further;
 * - `counted as attached`: followed like any other eye;
 * - `counted as failed`: an eye with oil still in at its last visit has failed on that day.
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
 * Eyes whose outcome is not decided at their last visit (fluid under observation, or the state
 * not recorded): `bounds` and `censored` both follow them to that visit, and `bounds` also gives
 * every rate with both extremes; `failed` and `attached` decide them so, on that day.
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
