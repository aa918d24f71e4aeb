/** Observed against predicted risk, a point a group of eyes: finished numbers, fractions 0 to 1. */
export interface CalibrationPoints {
  readonly points: readonly CalibrationPoint[];
  /** Observed risk smoothed over predicted risk, from left to right; left out with few failures. */
  readonly curve?: readonly { readonly predicted: number; readonly observed: number }[];
  /** What was counted: "failed". */
  readonly counted: string;
  /** Confidence level of the limits, for the description. Default 0.95. */
  readonly level?: number;
}

export interface CalibrationPoint {
  readonly eyes: number;
  readonly events: number;
  /** Mean predicted risk of the group. */
  readonly predicted: number;
  readonly observed: number;
  readonly lower: number;
  readonly upper: number;
  /** What a click on the point opens. */
  readonly pick?: string;
}
