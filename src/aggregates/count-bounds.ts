import {
  type AggregateGroup,
  type AggregatesFile,
  type Count,
  type Quantity,
  quantities,
} from "./aggregates-file.ts";

/** The least and the most that a count can be. */
export interface CountBounds {
  readonly least: number;
  readonly most: number;
}

export type GroupBounds = Readonly<Record<Quantity, CountBounds>>;

type Box = { least: number; most: number };
type Boxes = Record<Quantity, Box>;

/** More than any department has: the most of a count of which nothing is told. */
export const mostEyes = 1_000_000;

/** Sums are gone through at most this often; bounds only narrow, so that any number is right. */
const mostRounds = 60;

/**
 * What every count of a file can be, given that a withheld one is 1 or more and that counts add up:
 * the eyes of a group are those failed, held and unknown, and the groups of a grouping are all eyes.
 * Each sum narrows what its parts can be and is narrowed by them (propagation of bounds).
 * Where no numbers fit, some `least` lies over its `most`.
 */
export function countBounds({ groups }: AggregatesFile): ReadonlyMap<string, GroupBounds> {
  const boxes = new Map(groups.map((group) => [keyOfGroup(group), boxesOf(group)]));
  const sums = [...boxes.values()].map(
    (group): Sum => [group.eyes, [group.failed, group.held, group.unknown]],
  );
  const all = boxes.get("");
  for (const parts of groupings(groups)) {
    const of = parts.flatMap((key) => boxes.get(key) ?? []);
    for (const name of quantities)
      if (all !== undefined) sums.push([all[name], of.map((each) => each[name])]);
  }
  for (let round = 0; round < mostRounds; round++) {
    const narrowed = sums.map(narrow);
    if (!narrowed.includes(true)) break;
  }
  return boxes;
}

/** A group among those of its file: "" for all eyes. */
export function keyOfGroup({ by }: Pick<AggregateGroup, "by">): string {
  return by.length === 0 ? "" : JSON.stringify(by.map(({ column, value }) => [column, value]));
}

/** The keys of the groups of each grouping. */
function groupings(groups: readonly AggregateGroup[]): string[][] {
  const found = new Map<string, string[]>();
  for (const group of groups) {
    const columns = JSON.stringify(group.by.map(({ column }) => column));
    if (group.by.length > 0) found.set(columns, [...(found.get(columns) ?? []), keyOfGroup(group)]);
  }
  return [...found.values()];
}

function boxesOf(group: AggregateGroup): Boxes {
  const box = (name: Quantity) => boxOf(group[name]);
  return { eyes: box("eyes"), failed: box("failed"), held: box("held"), unknown: box("unknown") };
}

function boxOf(count: Count): Box {
  if (typeof count === "number") return { least: count, most: count };
  return { least: 1, most: count.most ?? mostEyes };
}

type Sum = readonly [whole: Box, parts: readonly Box[]];

/** Narrows a sum and its parts; whether anything changed. */
function narrow([whole, parts]: Sum): boolean {
  const least = parts.reduce((sum, part) => sum + part.least, 0);
  const most = parts.reduce((sum, part) => sum + part.most, 0);
  let changed = tighten(whole, least, most);
  for (const part of parts) {
    const others = parts.filter((each) => each !== part);
    const othersMost = others.reduce((sum, each) => sum + each.most, 0);
    const othersLeast = others.reduce((sum, each) => sum + each.least, 0);
    if (tighten(part, whole.least - othersMost, whole.most - othersLeast)) changed = true;
  }
  return changed;
}

function tighten(box: Box, least: number, most: number): boolean {
  if (box.least >= least && box.most <= most) return false;
  box.least = Math.max(box.least, least);
  box.most = Math.min(box.most, most);
  return true;
}
