import type { RateInterval, RateIntervals } from "./rate-intervals.ts";

/** Rates with intervals under headings: finished numbers, fractions 0 to 1. */
export interface SectionedRates {
  readonly sections: readonly RateSection[];
  /** What was counted, as in "25 of 212 failed". */
  readonly counted: string;
  /** How the rates were estimated, over them: "by the curve"; absent: as counts are divided. */
  readonly how?: string;
  readonly tone: RateIntervals["tone"];
  /** What the dotted line of a row stands for; absent where no row has one. */
  readonly reach?: string;
}

export interface RateSection {
  readonly label: string;
  readonly rows: readonly SectionedRate[];
}

export interface SectionedRate extends RateInterval {
  /** How far the rate itself moves with what the row leaves open. */
  readonly lowest?: number | null;
  readonly highest?: number | null;
  /** Set in bold: the row that the reader has chosen. */
  readonly chosen?: boolean;
}
