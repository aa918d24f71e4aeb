import { atomsOf } from "./atoms.ts";
import type { CountedSet, DistinctSet } from "./counted-set.ts";
import { Residuals } from "./residuals.ts";
import { sensitiveVectors } from "./sensitive-vectors.ts";
import { withoutPinned } from "./without-pinned.ts";

/** What is to be respected besides the counts themselves. */
export interface Release {
  /** Keys of counts that another paper shows already: they stay known, and more must not follow. */
  readonly shown?: ReadonlySet<string>;
  /** Keys of counts that are not to be shown, only protected. */
  readonly unshown?: ReadonlySet<string>;
  /** The patient of a row; a row that is not named there stands for one of its own. */
  readonly patientOf?: ReadonlyMap<number, string>;
}

/** The two greatest primes below 2^26. */
export const primes = [67_108_859, 67_108_837] as const;

/**
 * The keys of the counts that may be shown, so that no count below the threshold can be had from
 * them: neither as it stands (primary suppression) nor by adding and subtracting what is shown in
 * any tables, charts and tables of eyes at risk of the same report (secondary suppression). A count
 * is below the threshold where fewer patients stand behind it: five eyes may be those of three.
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
export function openCounts(
  counted: readonly CountedSet[],
  threshold: number,
  { shown, unshown = new Set(), patientOf = new Map() }: Release = {},
): ReadonlySet<string> {
  const { sets, patients } = atomsOf(counted, patientOf);
  const ordered = [...sets].sort((a, b) => Number(b.isLead) - Number(a.isLead) || b.size - a.size);
  const before = new Set(ordered.filter(({ keys }) => keys.some((key) => shown?.has(key))));
  const kept = counted.filter(({ isOnlyProtected }) => isOnlyProtected === true);
  const unasked = new Set([...unshown, ...kept.map(({ key }) => key)]);
  const wanted = ordered.filter(({ keys }) => keys.some((key) => !unasked.has(key)));
  const sensitive = sensitiveVectors(ordered, threshold, patients);
  const linear = linearlyOpen(ordered, sensitive, { before, wanted });
  const open = withoutPinned(ordered, linear, {
    ...{ threshold, before, patients },
    isAlone: shown === undefined,
  });
  return new Set([...open].flatMap((set) => set.keys));
}

/** `before`: shown whatever they give away. What they give away by themselves binds nothing else. */
function linearlyOpen(
  ordered: readonly DistinctSet[],
  sensitive: readonly Uint8Array[],
  {
    before,
    wanted,
  }: { readonly before: ReadonlySet<DistinctSet>; readonly wanted: readonly DistinctSet[] },
): Set<DistinctSet> {
  const vectors = [...ordered.map(({ atoms }) => atoms), ...sensitive];
  const systems = primes.map((prime) => new Residuals(vectors, prime));
  const positions = new Map(ordered.map((set, position) => [set, position]));
  const take = (set: DistinctSet) => {
    for (const system of systems) system.take(positions.get(set) ?? -1);
  };
  before.forEach(take);
  const secret = sensitive
    .map((_, each) => ordered.length + each)
    .filter((each) => before.size === 0 || !systems.some((system) => system.isNothing(each)));
  const open = new Set(before);
  for (const set of wanted) {
    if (before.has(set)) continue;
    const position = positions.get(set) ?? -1;
    const givesAway = systems.some((system) =>
      secret.some((each) => system.isMadeWith(each, position)),
    );
    if (givesAway) continue;
    take(set);
    open.add(set);
  }
  return open;
}
