import type { TimeUnit } from "./time-text.ts";

/** What the incidence chart draws: finished numbers, times in whole days, fractions 0 to 1. */
export interface IncidenceCurves {
  readonly curves: readonly IncidenceCurve[];
  /** What rises: "failed", "new or missed break". */
  readonly measure: string;
  /** Last day drawn. */
  readonly until: number;
  /** Days of the time axis' labels, and of the columns of the table under it. */
  readonly atRiskTimes: readonly number[];
  /** The rows of the table under the time axis. */
  readonly groups: readonly { readonly label: string }[];
  /** What the groups are split by: "risk of PVR". */
  readonly splitBy?: string;
  /** Eyes at risk: one row a group, one number for each of `atRiskTimes`. */
  readonly atRisk: readonly (readonly number[])[];
  /** What a click on a number at risk opens, in the same shape. */
  readonly atRiskPicks?: readonly (readonly string[])[];
  readonly timeLabel: TimeUnit;
  /** Confidence level of `lower` and `upper`, for the description. Default 0.95. */
  readonly level?: number;
}

export interface IncidenceCurve {
  /** What the line is of, at its end: a cause or a group. */
  readonly label: string;
  /** In order of time; each holds from its day until the next. Before the first it is 0. */
  readonly steps: readonly IncidenceStep[];
  /** Day of the last follow-up: the curve ends there. */
  readonly end: number;
  /** What a click on the label at the line's end opens. */
  readonly pick?: string;
}

export interface IncidenceStep {
  readonly time: number;
  readonly incidence: number;
  /** Limits of the interval; null where it has none. */
  readonly lower: number | null;
  readonly upper: number | null;
  /** What a click on the step opens. */
  readonly pick?: string;
}

/** The incidence on a day, by the last step up to it; 0 before the first. */
export function incidenceOn({ steps }: IncidenceCurve, day: number): number {
  return stepOn(steps, day)?.incidence ?? 0;
}

export function stepOn(steps: readonly IncidenceStep[], day: number): IncidenceStep | undefined {
  return steps.findLast((step) => step.time <= day);
}

/** The last day drawn of a curve. */
export function endOf(curve: IncidenceCurve, until: number): number {
  return Math.min(curve.end, until);
}
