/** Breaks around the clock in right and left eyes: finished counts. */
export interface ClockRose {
  /** One without a label, or a pair of roses for each group. */
  readonly groups: readonly RoseGroup[];
  /** What the inner wedges count: "failed". */
  readonly counted: string;
  /** The hours of an inferior break, marked by an arc outside. */
  readonly inferior: { readonly name: string; readonly from: number; readonly to: number };
}

export interface RoseGroup {
  readonly label?: string;
  readonly eyes: readonly RoseOfSide[];
}

export interface RoseOfSide {
  readonly side: "right" | "left";
  /** Eyes with a break recorded. */
  readonly total: number;
  readonly hours: readonly RoseHour[];
}

export interface RoseHour {
  /** 1 to 12, as the surgeon faces the patient. */
  readonly hour: number;
  readonly eyes: number;
  readonly failed: number;
  /** What a click on the wedge, and on its failed part, opens. */
  readonly pick?: string;
  readonly failedPick?: string;
}
