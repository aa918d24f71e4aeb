import type { DistinctSet } from "./counted-set.ts";
import type { Division } from "./divisions.ts";

export interface Bounds {
  least: number;
  most: number;
}

/** More than any file holds, and small enough for sums of it to be exact. */
const unbounded = 1e9;

/**
 * What a reader knows of every count where totals are the sums of their parts: those shown exactly,
 * the others 1 or more, since a count of none is always shown. Each division narrows its total and
 * its parts until nothing moves (the bounds of a table whose cells are suppressed: L. Willenborg,
 * T. de Waal, Elements of Statistical Disclosure Control, 2001; named from memory).
 */
export function boundsOfCounts(
  sets: readonly DistinctSet[],
  divisions: readonly Division[],
  open: ReadonlySet<DistinctSet>,
): ReadonlyMap<DistinctSet, Readonly<Bounds>> {
  const bounds = new Map(
    sets.map((set): [DistinctSet, Bounds] => [
      set,
      open.has(set) ? { least: set.size, most: set.size } : { least: 1, most: unbounded },
    ]),
  );
  const of = (set: DistinctSet) => bounds.get(set) as Bounds;
  const linked = divisions.map(({ total, parts }) => ({ whole: of(total), parts: parts.map(of) }));
  while (linked.map(({ whole, parts }) => narrowed(whole, parts)).includes(true));
  return bounds;
}

/** Whether anything moved. Bounds are whole numbers that only close in, so that this ends. */
function narrowed(whole: Bounds, parts: readonly Bounds[]): boolean {
  const least = parts.reduce((sum, part) => sum + part.least, 0);
  const most = parts.reduce((sum, part) => sum + part.most, 0);
  const before = { ...whole };
  whole.least = Math.max(before.least, least);
  whole.most = Math.min(before.most, most);
  let hasMoved = whole.least !== before.least || whole.most !== before.most;
  for (const part of parts) {
    const { least: low, most: high } = part;
    part.least = Math.max(low, whole.least - (most - high));
    part.most = Math.min(high, whole.most - (least - low));
    hasMoved ||= part.least !== low || part.most !== high;
  }
  return hasMoved;
}
