import { boundsOfCounts } from "./bounds-of-counts.ts";
import type { DistinctSet } from "./counted-set.ts";
import { type Division, divisionsOf } from "./divisions.ts";
import type { PatientsOfAtoms } from "./patients-of-atoms.ts";

/** A total that is shown, and parts of it that are not: their sum is known, and each is 1 or more. */
interface Residue {
  readonly shown: readonly DistinctSet[];
  readonly hidden: readonly DistinctSet[];
  readonly sum: number;
}

export interface PinsAsked {
  readonly threshold: number;
  readonly before: ReadonlySet<DistinctSet>;
  readonly patients: PatientsOfAtoms;
  /** Whether there is no other paper beside which these counts are handed over. */
  readonly isAlone: boolean;
}

/**
 * The open counts less those that let bounds do what subtraction cannot. Where parts of a total
 * are suppressed their sum is still known, and a count of none is always shown, so that each is
 * at least 1: two that sum to 2 are known to be 1 each; two under a threshold of 5 that sum to 8
 * are known to be 4 each by a reader who guesses that both were small. A sum behind which fewer
 * patients than the threshold stand is a small count itself. Rows and columns together bound a count
 * more closely than either (`boundsOfCounts`). The last part that is shown goes as well, or else the
 * total; what another paper has shown before cannot go. Beside another paper rows and columns are not
 * looked at together here: who hands such counts over has bounds of its own to keep to.
 */
export function withoutPinned(
  sets: readonly DistinctSet[],
  linearlyOpen: ReadonlySet<DistinctSet>,
  asked: PinsAsked,
): ReadonlySet<DistinctSet> {
  const open = new Set(linearlyOpen);
  const divisions = divisionsOf(sets);
  const mayGo = (set: DistinctSet) => open.has(set) && !asked.before.has(set);
  for (;;) {
    const goes =
      outOfResidues(divisions, open, asked) ??
      (asked.isAlone ? outOfBounds(sets, divisions, { open, asked, mayGo }) : undefined);
    if (goes === undefined) return open;
    open.delete(goes);
  }
}

/** What is to go of the first division whose hidden parts their sum gives away. */
function outOfResidues(
  divisions: readonly Division[],
  open: ReadonlySet<DistinctSet>,
  asked: PinsAsked,
): DistinctSet | undefined {
  for (const division of divisions) {
    const residue = residueOf(division, open);
    if (residue === undefined || !isGivenAway(residue, asked)) continue;
    const goes = [division.total, ...residue.shown].findLast((set) => !asked.before.has(set));
    if (goes !== undefined) return goes;
  }
  return undefined;
}

function residueOf({ total, parts }: Division, open: ReadonlySet<DistinctSet>) {
  if (!open.has(total)) return undefined;
  const shown = parts.filter((part) => open.has(part));
  const hidden = parts.filter((part) => !open.has(part));
  if (hidden.length === 0) return undefined;
  const sum = total.size - shown.reduce((all, { size }) => all + size, 0);
  return { shown, hidden, sum };
}

function isGivenAway({ hidden, sum }: Residue, { threshold, patients }: PinsAsked): boolean {
  if (sum === hidden.length) return true;
  const union = hidden[0]?.atoms.map((_, atom) =>
    hidden.reduce((all, { atoms }) => all + (atoms[atom] ?? 0), 0),
  );
  if (patients.countOf(union ?? []) < threshold) return true;
  return sum === hidden.length * (threshold - 1) && hidden.every((set) => set.patients < threshold);
}

/** What is to go where bounds leave a small count one value: the least that is shown nearest to it. */
function outOfBounds(
  sets: readonly DistinctSet[],
  divisions: readonly Division[],
  {
    open,
    asked,
    mayGo,
  }: {
    readonly open: ReadonlySet<DistinctSet>;
    readonly asked: PinsAsked;
    mayGo(set: DistinctSet): boolean;
  },
): DistinctSet | undefined {
  const bounds = boundsOfCounts(sets, divisions, open);
  for (const set of sets) {
    const { least, most } = bounds.get(set) ?? { least: 0, most: 1 };
    if (open.has(set) || set.patients >= asked.threshold || least !== most) continue;
    const goes = nearest(set, divisions, mayGo);
    if (goes !== undefined) return goes;
  }
  return undefined;
}

/** Of the divisions it stands in, else of those that these touch, and so on. */
function nearest(
  from: DistinctSet,
  divisions: readonly Division[],
  mayGo: (set: DistinctSet) => boolean,
): DistinctSet | undefined {
  const reached = new Set([from]);
  for (let before = 0; before < reached.size; ) {
    before = reached.size;
    const touching = divisions
      .map(({ total, parts }) => [total, ...parts])
      .filter((members) => members.some((each) => reached.has(each)));
    const goes = touching
      .flat()
      .filter(mayGo)
      .sort((one, other) => Number(one.isLead) - Number(other.isLead) || one.size - other.size)[0];
    if (goes !== undefined) return goes;
    for (const each of touching.flat()) reached.add(each);
  }
  return undefined;
}
