/**
 * The sample quantile by linear interpolation between order statistics: at position (n - 1) p from
 * the smallest, the default of most statistical programs (definition 7 of Hyndman and Fan 1996).
 */
import { requireNumbers } from "./argument-checks.ts";
import { requireRisk } from "./count-distributions.ts";

/** The quantile at `p` from 0 to 1 of values in any order; null for no values. */
export function sampleQuantile(values: ArrayLike<number>, p: number): number | null {
  requireRisk("p", p);
  requireNumbers("values", values);
  if (values.length === 0) return null;
  const sorted = Float64Array.from(values).sort();
  const position = (sorted.length - 1) * p;
  const below = Math.floor(position);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below]! + (position - below) * (sorted[above]! - sorted[below]!);
}
