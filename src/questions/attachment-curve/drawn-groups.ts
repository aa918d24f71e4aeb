import type { Caution } from "../answer.ts";
import { groupName, listed } from "../answering/wording.ts";

/** Below this a curve is a few steps of its own eyes, and its limits stretch the axis for all. */
const leastEyes = 10;

/** A group with a curve of its own. */
interface CurvedGroup {
  readonly label: string;
  readonly eyes: readonly unknown[];
}

/** The groups worth a curve: those of ten eyes or more, or all where there is none. */
export function drawnGroups<Group extends CurvedGroup>(groups: readonly Group[]): readonly Group[] {
  const large = groups.filter((group) => group.eyes.length >= leastEyes);
  return large.length === 0 ? groups : large;
}

/** Says which groups stand in the table alone. */
export function notDrawn(groups: readonly CurvedGroup[]): Caution[] {
  const drawn = new Set(drawnGroups(groups));
  const left = groups.filter((group) => !drawn.has(group)).map((group) => groupName(group.label));
  if (left.length === 0) return [];
  return [
    {
      code: "groups-not-drawn",
      text: `Not drawn, with fewer than ${leastEyes} eyes: ${listed(left)}; they stand in the table.`,
    },
  ];
}
