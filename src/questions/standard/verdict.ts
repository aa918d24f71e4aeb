/** Whether a standard is met. */
export const verdicts = ["met", "not met", "cannot tell yet"] as const;
export type Verdict = (typeof verdicts)[number];

/** A level to be reached or not to be passed, as a fraction of 1. */
export interface Level {
  readonly side: "at least" | "at most";
  readonly level: number;
}

/**
 * By the interval, not by the point: met where the whole interval lies on the good side of the
 * standard or touches it, not met where all of it lies on the other, and otherwise it cannot be
 * told yet. The share and the standard are of the same thing.
 */
export function verdictOf(
  interval: { readonly lower: number; readonly upper: number } | null,
  { side, level }: Level,
): Verdict {
  if (interval === null) return "cannot tell yet";
  const { lower, upper } = interval;
  const reaches = side === "at least" ? lower >= level : upper <= level;
  const misses = side === "at least" ? upper < level : lower > level;
  return reaches ? "met" : misses ? "not met" : "cannot tell yet";
}
