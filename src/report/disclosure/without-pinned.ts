import type { DistinctSet } from "./counted-set.ts";
import { isWithin } from "./sensitive-vectors.ts";

/** A total that is shown, and parts of it that are not: their sum is known, and each is 1 or more. */
interface Residue {
  readonly total: DistinctSet;
  readonly shown: readonly DistinctSet[];
  readonly hidden: readonly DistinctSet[];
  readonly sum: number;
}

/**
 * The open counts less those that let bounds do what subtraction cannot. Where parts of a total
 * are suppressed their sum is still known, and a count of none is always shown, so that each is
 * at least 1: two that sum to 2 are known to be 1 each; two under a threshold of 5 that sum to 8
 * are known to be 4 each by a reader who guesses that both were small. A sum under the threshold
 * is a small count itself. The last part that is shown goes as well, or else the total; what another
 * paper has shown before cannot go.
 */
export function withoutPinned(
  sets: readonly DistinctSet[],
  linearlyOpen: ReadonlySet<DistinctSet>,
  { threshold, before }: { readonly threshold: number; readonly before: ReadonlySet<DistinctSet> },
): ReadonlySet<DistinctSet> {
  const open = new Set(linearlyOpen);
  const divisions = divisionsOf(sets);
  for (let changed = true; changed; ) {
    changed = false;
    for (const division of divisions) {
      const residue = residueOf(division, open);
      if (residue === undefined || !isPinned(residue, threshold)) continue;
      const goes = [residue.total, ...residue.shown].findLast((set) => !before.has(set));
      if (goes === undefined) continue;
      open.delete(goes);
      changed = true;
    }
  }
  return open;
}

interface Division {
  readonly total: DistinctSet;
  /** Disjoint, and together the whole; the one to be kept longest first. */
  readonly parts: readonly DistinctSet[];
}

/** Every total with the rows or the columns of a table that divide it without a rest. */
function divisionsOf(sets: readonly DistinctSet[]): Division[] {
  const families = new Map<string, DistinctSet[]>();
  for (const set of sets) {
    for (const family of set.families) {
      families.set(family, [...(families.get(family) ?? []), set]);
    }
  }
  return sets.flatMap((total) =>
    [...families.values()].flatMap((family) => {
      const parts = family.filter((each) => each.size < total.size && isWithin(each, total));
      return isDivision(total, parts) ? [{ total, parts }] : [];
    }),
  );
}

function isDivision(total: DistinctSet, parts: readonly DistinctSet[]): boolean {
  if (parts.reduce((sum, { size }) => sum + size, 0) !== total.size) return false;
  return total.atoms.every(
    (each, atom) => parts.reduce((sum, { atoms }) => sum + (atoms[atom] ?? 0), 0) === each,
  );
}

function residueOf({ total, parts }: Division, open: ReadonlySet<DistinctSet>) {
  if (!open.has(total)) return undefined;
  const shown = parts.filter((part) => open.has(part));
  const hidden = parts.filter((part) => !open.has(part));
  if (hidden.length === 0) return undefined;
  const sum = total.size - shown.reduce((all, { size }) => all + size, 0);
  return { total, shown, hidden, sum };
}

function isPinned({ hidden, sum }: Residue, threshold: number): boolean {
  if (sum < threshold || sum === hidden.length) return true;
  return sum === hidden.length * (threshold - 1) && hidden.every(({ size }) => size < threshold);
}
