/** Differences or ratios with their intervals, a row each: finished numbers. */
export interface EffectIntervals {
  readonly rows: readonly EffectInterval[];
  /** What the rows are split by, over their names: "technique". */
  readonly splitBy?: string;
  /** `difference`: of shares, fractions of 1, around 0. `ratio`: on a log scale, around 1. */
  readonly scale: "difference" | "ratio";
  /** What is measured: "hazard ratio", "difference of failure rates, percentage points". */
  readonly measure: string;
  /** What stands in the middle of each row, over its texts: "failed". */
  readonly counted: string;
  /** What lies on either side of no difference: "scleral buckle failed less", "… more". */
  readonly sides?: { readonly below: string; readonly above: string };
  /** Confidence level of the limits, for the description. Default 0.95. */
  readonly level?: number;
}

export interface EffectInterval {
  readonly label: string;
  /** Counts behind it, as shown: "9 of 70 | 12 of 71". */
  readonly count: string;
  /** Null where nothing can be estimated; of a ratio 0 and Infinity are drawn at the ends. */
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** The row that all others are summed up in: drawn as a diamond. */
  readonly isSummary?: boolean;
  /** What stands in place of a value: "reference". */
  readonly note?: string;
  /** What a click on the row's mark or counts opens. */
  readonly pick?: string;
}

/**
 * "−1.7 (−8.1 – 4.2)" in percentage points, or "0.70 (0.41 – 1.20)"; a note where there is none.
 */
export function effectText(row: EffectInterval, scale: EffectIntervals["scale"]): string {
  const { estimate, lower, upper, note } = row;
  if (estimate === null) return note ?? "not estimable";
  const text = scale === "ratio" ? ratioText : pointsText;
  if (lower === null || upper === null) return text(estimate);
  return `${text(estimate)} (${text(lower)} – ${text(upper)})`;
}

/**
 * A ratio as shown: two decimals below 10, one below 100, then none; "<0.01" for what is not 0 but
 * would round to it, "∞" where it has no end.
 */
export function ratioText(ratio: number): string {
  if (ratio === Number.POSITIVE_INFINITY) return "∞";
  if (ratio > 0 && ratio < 0.005) return "<0.01";
  return ratio.toFixed(ratio < 9.995 ? 2 : ratio < 99.95 ? 1 : 0);
}

/** A difference of shares in percentage points to one decimal, with a true minus sign. */
export function pointsText(difference: number): string {
  const text = (100 * Math.abs(difference)).toFixed(1);
  return difference < 0 && Number(text) > 0 ? `−${text}` : text;
}
