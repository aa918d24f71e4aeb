import type { PersonGroups } from "../person-groups.ts";
import type { FunnelDesign, FunnelUnit, FunnelUnits } from "./funnel-units.ts";

export interface ShownUnit extends FunnelUnit {
  /** Its code, "no. 3", or "the unit without A". */
  readonly name: string;
  readonly isOwn: boolean;
  /** Whether its eyes may be opened. */
  readonly isOpen: boolean;
}

/**
 * Among fewer others than this the number of eyes alone tells who is who (chosen), so that a reader who
 * asks for one person gets the others together.
 */
const fewestToHideAmong = 10;

/** Whether one person asks for their own place among few, none of whom may be known by it. */
export function othersStandTogether(
  { groups, mine }: Pick<PersonGroups, "groups" | "mine">,
  areNamesHidden: boolean,
): boolean {
  return areNamesHidden && mine !== undefined && groups.length - 1 < fewestToHideAmong;
}

/** The units under the names that may be shown, in an order that gives nobody away. */
export function shownUnits(
  { units }: FunnelUnits,
  { areNamesHidden, mine }: { readonly areNamesHidden: boolean; readonly mine: string | undefined },
): ShownUnit[] {
  if (!areNamesHidden) {
    return units.map((unit) => ({
      ...unit,
      name: unit.label,
      isOwn: unit.label === mine,
      isOpen: true,
    }));
  }
  const bySize = [...units].sort((a, b) => b.size - a.size || a.value - b.value);
  return bySize.map((unit, position) => {
    const isOwn = unit.label === mine;
    return { ...unit, name: isOwn ? unit.label : `no. ${position + 1}`, isOwn, isOpen: isOwn };
  });
}

/**
 * One's own unit, and the others as one. Of observed over expected there is no such row: what is expected
 * of the others would come from this one person's eyes.
 */
export function ownAndOthers(
  found: FunnelUnits,
  { groups, mine }: Pick<PersonGroups, "groups" | "mine">,
  { scale }: FunnelDesign,
): ShownUnit[] {
  const own = found.units.filter(({ label }) => label === mine);
  const eyes = groups.filter(({ label }) => label !== mine).flatMap((group) => group.eyes);
  const label = `the unit without ${mine}`;
  const others = scale === "share" ? found.together({ label, eyes }) : undefined;
  return [
    ...own.map((unit) => ({ ...unit, name: unit.label, isOwn: true, isOpen: true })),
    ...(others === undefined ? [] : [{ ...others, name: label, isOwn: false, isOpen: false }]),
  ];
}
