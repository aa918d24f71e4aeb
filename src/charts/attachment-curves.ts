import type { TimeUnit } from "./time-text.ts";

/** What the attachment curve chart draws: finished numbers, times in whole days, fractions 0 to 1. */
export interface AttachmentCurves {
  readonly groups: readonly CurveGroup[];
  /** What the groups are split by: "risk of PVR". */
  readonly splitBy?: string;
  /** Last day drawn. */
  readonly until: number;
  /** Days of the time axis' labels, and of the columns of the table under it. */
  readonly atRiskTimes: readonly number[];
  /** Eyes at risk: one row a group, one number for each of `atRiskTimes`. */
  readonly atRisk: readonly (readonly number[])[];
  /** Eyes failed up to each of `atRiskTimes`, in the same shape. */
  readonly failed?: readonly (readonly number[])[];
  /** What a click on a number at risk opens, in the same shape. */
  readonly atRiskPicks?: readonly (readonly string[])[];
  readonly timeLabel: TimeUnit;
  /** The axis may begin this high at most; it begins lower where a curve does. */
  readonly yFloor?: number;
  /** Days marked by a line through the plot. */
  readonly landmarks?: readonly number[];
  /** Confidence level of `lower` and `upper`, for the description. Default 0.95. */
  readonly level?: number;
  /** What the curves are of, where it is not eyes still attached. */
  readonly words?: CurveWords;
}

/** What a falling curve shows and what ends it, in words. */
export interface CurveWords {
  /** "still attached". */
  readonly share: string;
  /** Over the numbers under the time axis: "eyes still attached and followed". */
  readonly atRisk: string;
}

export const attachmentWords: CurveWords = {
  share: "still attached",
  atRisk: "eyes still attached and followed",
};

export interface CurveGroup {
  readonly label: string;
  /** Eyes in the group. A group without eyes has no curve. */
  readonly total: number;
  /** In order of time; each holds from its day until the next. Before the first, all are attached. */
  readonly steps: readonly CurveStep[];
  readonly censored: readonly CensoredEyes[];
  /** Day of the last follow-up: the curve ends there. */
  readonly end: number;
  /** Day from which too few eyes remain: the curve is dimmed from there. */
  readonly dimFrom?: number;
  /** What a click on the label at the line's end opens. */
  readonly pick?: string;
}

export interface CurveStep {
  readonly time: number;
  readonly survival: number;
  /** Limits of the interval; null where it has none. */
  readonly lower: number | null;
  readonly upper: number | null;
  readonly atRisk: number;
  /** What a click on the step opens. */
  readonly pick?: string;
}

export interface CensoredEyes {
  readonly time: number;
  readonly survival: number;
  readonly count: number;
}
