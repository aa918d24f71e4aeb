/**
 * Sample quantiles on a straight line between two neighbouring values of the ordered sample.
 *
 * The quantile at p lies at the place h, counted from 1, that one of the six continuous definitions of
 * Hyndman and Fan (The American Statistician 1996;50:361) gives for n values:
 *   4  n p          5  n p + 1/2           6  (n + 1) p
 *   7  (n - 1) p + 1    8  (n + 1/3) p + 1/3    9  (n + 1/4) p + 3/8
 * Places before the first or after the last value are those values. Definition 7, the default of most
 * statistical programs, is used unless another is asked for.
 */
import { requireNumbers } from "./argument-checks.ts";
import { requireRisk } from "./count-distributions.ts";

export type QuantileDefinition = 4 | 5 | 6 | 7 | 8 | 9;

/** h = (n + stretch) p + shift. */
const places: Readonly<Record<QuantileDefinition, { stretch: number; shift: number }>> = {
  4: { stretch: 0, shift: 0 },
  5: { stretch: 0, shift: 1 / 2 },
  6: { stretch: 1, shift: 0 },
  7: { stretch: -1, shift: 1 },
  8: { stretch: 1 / 3, shift: 1 / 3 },
  9: { stretch: 1 / 4, shift: 3 / 8 },
};

/** The quantile at `p` from 0 to 1 of values in any order; null for no values. Refuses a missing one. */
export function sampleQuantile(
  values: ArrayLike<number>,
  p: number,
  definition: QuantileDefinition = 7,
): number | null {
  requireRisk("p", p);
  requireNumbers("values", values);
  const place = places[definition];
  if (place === undefined) {
    throw new RangeError(`definition is ${definition}; expected a whole number from 4 to 9`);
  }
  if (values.length === 0) return null;
  const ordered = Float64Array.from(values).sort();
  const last = ordered.length - 1;
  const at = Math.min(last, Math.max(0, (ordered.length + place.stretch) * p + place.shift - 1));
  const below = Math.floor(at);
  const above = Math.min(below + 1, last);
  return ordered[below]! + (at - below) * (ordered[above]! - ordered[below]!);
}
