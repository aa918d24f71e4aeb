/** People or units around a target, by size, with control limits: finished numbers. */
export interface Funnel {
  readonly points: readonly FunnelPoint[];
  readonly limits: readonly FunnelLevel[];
  /** A share, or 1 for ratios. */
  readonly target: number;
  /** "target 13.0%". */
  readonly targetLabel: string;
  readonly scale: "share" | "ratio";
  /** What lies across: "eyes whose outcome is known". */
  readonly across: string;
  /** What is counted: "failed". */
  readonly counted: string;
}

export interface FunnelPoint {
  /** Drawn beside the point; absent where names are hidden. */
  readonly label?: string;
  /** Eyes, or expected failures. */
  readonly size: number;
  /** A share, or observed over expected. */
  readonly value: number;
  /** The reader's own. */
  readonly isOwn: boolean;
  readonly pick?: string;
}

/** Limits of one level over sizes, from left to right. */
export interface FunnelLevel {
  readonly level: number;
  readonly points: readonly {
    readonly size: number;
    readonly lower: number;
    readonly upper: number;
  }[];
}
