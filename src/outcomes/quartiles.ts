import { sampleQuantile } from "../statistics/sample-quantile.ts";

/** Median and quartiles of numbers. */
export interface Quartiles {
  readonly lower: number;
  readonly median: number;
  readonly upper: number;
}

/** Median and quartiles, as `sampleQuantile` has them; null for no values. */
export function quartiles(values: readonly number[]): Quartiles | null {
  const [lower, median, upper] = [0.25, 0.5, 0.75].map((share) => sampleQuantile(values, share));
  if (lower == null || median == null || upper == null) return null;
  return { lower, median, upper };
}
