import { atomsOf } from "./atoms.ts";
import type { CountedSet, DistinctSet } from "./counted-set.ts";
import { Residuals } from "./residuals.ts";
import { sensitiveVectors } from "./sensitive-vectors.ts";
import { withoutPinned } from "./without-pinned.ts";

/** The two greatest primes below 2^26. */
export const primes = [67_108_859, 67_108_837] as const;

/**
 * The keys of the counts that may be shown, so that no count below the threshold can be had from
 * them: neither as it stands (primary suppression) nor by adding and subtracting what is shown in
 * any tables, charts and tables of eyes at risk of the same report (secondary suppression).
 *
 * Every count is a sum over atoms (`atomsOf`). A sensitive count can be worked out by adding and
 * subtracting exactly if it lies in the row space of the counts shown. Counts are taken from the
 * greatest down, those that rates rest on first; one is left out if with it a sensitive count would
 * come to lie in the row space. Since the sets that depend on each other form a matroid, the count
 * left out is always the last in this order, the smallest of its kind, of those that together give
 * the sensitive one away. What the bounds would pin down is looked for afterwards (`withoutPinned`).
 *
 * Primary and secondary suppression: L. Willenborg, T. de Waal, Elements of Statistical Disclosure
 * Control, 2001; A. Hundepool et al., Statistical Disclosure Control, 2012 (both named from memory).
 *
 * @param threshold smallest count that may be shown, 2 or more
 */
export function openCounts(counted: readonly CountedSet[], threshold: number): ReadonlySet<string> {
  const { sets } = atomsOf(counted);
  const ordered = [...sets].sort((a, b) => Number(b.isLead) - Number(a.isLead) || b.size - a.size);
  const open = withoutPinned(ordered, linearlyOpen(ordered, threshold), threshold);
  return new Set([...open].flatMap((set) => set.keys));
}

function linearlyOpen(ordered: readonly DistinctSet[], threshold: number): Set<DistinctSet> {
  const sensitive = sensitiveVectors(ordered, threshold);
  const vectors = [...ordered.map(({ atoms }) => atoms), ...sensitive];
  const systems = primes.map((prime) => new Residuals(vectors, prime));
  const open = new Set<DistinctSet>();
  ordered.forEach((set, position) => {
    const givesAway = systems.some((system) =>
      sensitive.some((_, each) => system.isMadeWith(ordered.length + each, position)),
    );
    if (givesAway) return;
    for (const system of systems) system.take(position);
    open.add(set);
  });
  return open;
}
