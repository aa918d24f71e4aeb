/**
 * Arbitrary numbers spread evenly over a range. Those of `fc.double` are spread evenly over the doubles,
 * half of which between 0 and 1 lie under 1e-150: as shares they are next to always 0.
 */
import fc from "fast-check";

const STEPS = 10_000;

/** Numbers from `from` to `to`, both ends among them. */
export function evenly(from: number, to: number): fc.Arbitrary<number> {
  return fc.integer({ min: 0, max: STEPS }).map((k) => from + ((to - from) * k) / STEPS);
}

/** Part of so many eyes, from none to all. */
export function partOf(least: number, most: number) {
  return fc
    .tuple(fc.integer({ min: least, max: most }), evenly(0, 1))
    .map(([total, share]) => ({ failed: Math.round(total * share), total }));
}
