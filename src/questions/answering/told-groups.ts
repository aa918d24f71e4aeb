import { isComparingPeople } from "./cautions.ts";
import { type Grouping, notRecorded } from "./grouping.ts";

/** A group with fewer eyes than this stands in the table and is not read out. */
const leastEyes = 10;

/**
 * The groups that a sentence reads out: none of people, since a sentence for the minutes ranks
 * nobody; else those that are recorded and have ten eyes, or all where none has.
 */
export function toldGroups<Group extends { readonly label: string }>(
  grouping: Grouping,
  groups: readonly Group[],
  size: (group: Group) => number,
): readonly Group[] {
  if (isComparingPeople(grouping.by)) return [];
  const recorded = groups.filter(({ label }) => label !== notRecorded);
  const large = recorded.filter((group) => size(group) >= leastEyes);
  return large.length === 0 ? recorded : large;
}

/** Says that some groups are in the table alone. */
export function othersInTable(told: number, groups: number): string {
  if (told === groups) return "";
  return told === 0 ? "; each stands in the table" : "; smaller groups stand in the table";
}
