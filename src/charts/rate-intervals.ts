import { percentText } from "./percent-text.ts";

/** Rates with intervals, a row a group: finished numbers, fractions 0 to 1. */
export interface RateIntervals {
  readonly rows: readonly RateInterval[];
  /** What the rows are split by, over their names: "risk of PVR". */
  readonly splitBy?: string;
  /** What was counted, as in "25 of 212 failed". */
  readonly counted: string;
  /** What the rate is of, where that is not what was counted: "free of failure". */
  readonly rateOf?: string;
  /** How the rates were estimated, over them: "by the curve"; absent: as counts are divided. */
  readonly how?: string;
  /** What the colour of the marks says. */
  readonly tone: "failed" | "attached" | "plain";
  /** A standard drawn as a line through all rows. */
  readonly reference?: { readonly rate: number; readonly label: string };
  /** Confidence level of the limits, for the description. Default 0.95. */
  readonly level?: number;
}

export interface RateInterval {
  readonly label: string;
  readonly events: number;
  readonly total: number;
  /** Null where there are no eyes, or too little is known of them. */
  readonly rate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** What a click on the row's mark or counts opens. */
  readonly pick?: string;
}

/** "25 of 212". */
export function countText({ events, total }: RateInterval): string {
  return `${events} of ${total}`;
}

/** "11.8% (8.1 – 16.8)"; without limits the rate alone. */
export function rateText({ rate, lower, upper, total }: RateInterval): string {
  if (rate === null) return total === 0 ? "no eyes" : "not estimable";
  if (lower === null || upper === null) return percentText(rate, 1);
  const limits = [lower, upper].map((limit) => (limit * 100).toFixed(1)).join(" – ");
  return `${percentText(rate, 1)} (${limits})`;
}
