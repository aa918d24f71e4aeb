/** A table drawn as bars, points, lines or boxes: finished numbers. */
export interface TableDrawing {
  readonly as: "bars" | "points" | "line" | "boxes";
  readonly across: DrawnScale;
  readonly up: DrawnScale;
  /** Groups told apart by hue, dash and shape; none where the marks are not split. */
  readonly groups: readonly string[];
  /** What they are groups of. */
  readonly by?: string;
  readonly marks: readonly TableMark[];
}

/**
 * `share`: fractions of 1. `days`: lengths of time. `day`: days since 1970-01-01. `groups`, across
 * only: marks stand over `names`, by position.
 */
export interface DrawnScale {
  readonly label: string;
  readonly kind: "groups" | "count" | "number" | "share" | "days" | "day";
  readonly names?: readonly string[];
}

export interface TableMark {
  /** The position of a name, or a value. */
  readonly across: number;
  /** The median for boxes; null where there is none, and nothing is drawn. */
  readonly up: number | null;
  /** Position among the groups; 0 where not split. */
  readonly group: number;
  /** How many rows it stands for. */
  readonly rows: number;
  /** For boxes. */
  readonly spread?: Spread;
  /** What a click on it opens. */
  readonly pick?: string;
}

/** Quartiles, the ends of the whiskers, and the values beyond them. */
export interface Spread {
  readonly lower: number;
  readonly upper: number;
  readonly least: number;
  readonly most: number;
  readonly beyond: readonly { readonly up: number; readonly pick?: string }[];
}

/** The label of a scale with its unit where it does not say so: "follow-up (days)". */
export function scaleLabel({ label, kind }: DrawnScale): string {
  return kind === "days" && !/\bdays\b/.test(label) ? `${label} (days)` : label;
}
