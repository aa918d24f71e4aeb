import { quantities } from "../../aggregates/aggregates-file.ts";
import type { CountedSet } from "../disclosure/counted-set.ts";
import { openCounts, type Release } from "../disclosure/open-counts.ts";
import type { GroupToRelease } from "./group-to-release.ts";
import { type BandOfEyes, endings } from "./time-bands.ts";

/** What of a group goes into the file. */
export interface ReleasedGroup {
  readonly group: GroupToRelease;
  readonly open: ReadonlySet<(typeof quantities)[number]>;
  readonly table: readonly BandOfEyes[] | undefined;
  readonly areCausesOpen: boolean;
  readonly arePairsOpen: boolean;
}

/** What another paper about the same eyes shows already. */
export interface ShownBefore {
  readonly counted: readonly CountedSet[];
  readonly open: ReadonlySet<string>;
}

/**
 * Which counts of the groups may be handed over beside what is shown already: none under the
 * threshold, and none from which one could be had by adding and subtracting. A table of times goes
 * as a whole, in coarser bands where finer ones would give something away, or not at all; the
 * groups give way before all eyes do.
 */
export function releasedCounts(
  groups: readonly GroupToRelease[],
  options: ReleaseRules,
): ReleasedGroup[] {
  const levels = new Map(groups.map((group) => [group, 0]));
  const refused = new Set<string>();
  for (;;) {
    const open = openNow(groups, { ...options, levels, refused });
    const failing = groups.filter((group) => !isTableOpen(group, levels.get(group) ?? 0, open));
    const parts = groups.flatMap((group) =>
      extraKeys(group).filter((keys) => !refused.has(keys[0] ?? "")),
    );
    const closed = parts.filter((keys) => !keys.every((key) => open.has(key)));
    if (failing.length === 0 && closed.length === 0) {
      return groups.map((group) =>
        releasedGroup(group, { level: levels.get(group) ?? 0, open, refused }),
      );
    }
    const yielding = failing.length > 1 ? failing.slice(1) : failing;
    for (const group of yielding) levels.set(group, (levels.get(group) ?? 0) + 1);
    if (failing.length === 0) for (const keys of closed) refused.add(keys[0] ?? "");
  }
}

/** What is small, and whose rows they are. */
export interface ReleaseRules {
  readonly threshold: number;
  readonly keyOf: (eye: number) => number;
  /** The patient of a row, by its key. */
  readonly patientOf: ReadonlyMap<number, string>;
  readonly before: ShownBefore;
}

interface Levels {
  readonly levels: ReadonlyMap<GroupToRelease, number>;
  /** First keys of the parts that are not told. */
  readonly refused: ReadonlySet<string>;
}

function openNow(
  groups: readonly GroupToRelease[],
  { threshold, keyOf, before, levels, refused, patientOf }: Levels & ReleaseRules,
): ReadonlySet<string> {
  const sets = groups.map((group) => setsOf(group, { level: levels.get(group) ?? 0, refused }));
  const counted = (part: "told" | "kept") =>
    sets.flatMap((each) =>
      each[part].map(
        ({ eyes, ...set }): CountedSet => ({ ...set, rows: new Set(eyes.map(keyOf)) }),
      ),
    );
  const [told, kept] = [counted("told"), counted("kept")];
  const release: Release = {
    shown: before.open,
    unshown: new Set([...kept, ...before.counted].map(({ key }) => key)),
    patientOf,
  };
  const open = openCounts([...before.counted, ...told, ...kept], threshold, release);
  const empty = told.filter(({ rows }) => rows.size === 0).map(({ key }) => key);
  return new Set([...open, ...empty]);
}

interface EyeSet extends Omit<CountedSet, "rows"> {
  readonly eyes: readonly number[];
}

/** The sets of a group: those that would be told, and those that are only protected. */
function setsOf(
  group: GroupToRelease,
  { level, refused }: { readonly level: number; readonly refused: ReadonlySet<string> },
): { readonly told: readonly EyeSet[]; readonly kept: readonly EyeSet[] } {
  const columns = group.by.map(({ column }) => column).join(" and ");
  const counts = quantities.map(
    (name): EyeSet => ({
      key: `${group.key} ${name}`,
      eyes: group[name],
      isLead: group.by.length <= 1,
      families: [`${group.key} outcome`, `${columns} ${name}`],
    }),
  );
  const fixed = [
    ...bandSets(group, group.fixed, "fixed"),
    ...bandSets(group, group.folded, "folded"),
  ].map((set) => ({
    ...set,
    families: [`${columns} ${set.key.slice(group.key.length)}`],
  }));
  const extra = [...causeSets(group), ...pairSets(group)];
  const [told, kept] = [
    extra.filter(({ part }) => !refused.has(part)),
    extra.filter(({ part }) => refused.has(part)),
  ].map((sets) => sets.map(({ part: _, ...set }) => set));
  const table = group.tables[level];
  const times = table === undefined ? [] : tableSets(group, table);
  return { told: [...counts, ...times, ...(told ?? [])], kept: [...fixed, ...(kept ?? [])] };
}

function tableSets(group: GroupToRelease, table: readonly BandOfEyes[]): EyeSet[] {
  const reached = {
    key: `${group.key} reached`,
    eyes: group.reached,
    families: [],
    isLead: group.by.length === 0,
  };
  return [...bandSets(group, table, "band"), reached];
}

function bandSets(
  { key, by }: GroupToRelease,
  bands: readonly BandOfEyes[],
  kind: string,
): EyeSet[] {
  const columns = by.map(({ column }) => column).join(" and ");
  return bands.flatMap((band) =>
    endings.map((ending) => ({
      key: `${key} ${kind} ${ending} ${band.from}-${band.to}`,
      eyes: band[ending],
      isLead: by.length === 0,
      families: [`${columns} ${ending} ${band.from}-${band.to}`],
    })),
  );
}

type PartSet = EyeSet & { readonly part: string };

function causeSets({ key, causes }: GroupToRelease): PartSet[] {
  const sets = (causes?.bands ?? []).flatMap(({ from, to, failed }) =>
    failed.map((eyes, at) => ({
      key: `${key} cause ${at} ${from}-${to}`,
      eyes,
      isLead: true,
      families: [`${key} cause ${from}-${to}`],
    })),
  );
  return sets.map((set) => ({ ...set, part: sets[0]?.key ?? "" }));
}

function pairSets({ key, pairs }: GroupToRelease): PartSet[] {
  if (pairs === undefined) return [];
  const names = ["none", "one", "both"] as const;
  return names.map((name) => ({
    ...{ key: `${key} pairs ${name}`, eyes: pairs[name], families: [] },
    part: `${key} pairs none`,
  }));
}

/** The keys that go together or not at all, besides the table of times. */
function extraKeys(group: GroupToRelease): string[][] {
  return [causeSets(group), pairSets(group)]
    .map((sets) => sets.map(({ key }) => key))
    .filter((keys) => keys.length > 0);
}

/** A table belongs beside the counts that it adds up to. */
function isTableOpen(group: GroupToRelease, level: number, open: ReadonlySet<string>): boolean {
  const table = group.tables[level];
  if (table === undefined) return true;
  const keys = [
    ...tableSets(group, table).map(({ key }) => key),
    `${group.key} eyes`,
    `${group.key} failed`,
  ];
  return keys.every((key) => open.has(key));
}

function releasedGroup(
  group: GroupToRelease,
  {
    level,
    open,
    refused,
  }: { level: number; open: ReadonlySet<string>; refused: ReadonlySet<string> },
): ReleasedGroup {
  const isTold = (sets: readonly PartSet[]) => sets.length > 0 && !refused.has(sets[0]?.part ?? "");
  const table = group.tables[level];
  const known = ["failed", "held"].every((name) => open.has(`${group.key} ${name}`));
  return {
    group,
    open: new Set(quantities.filter((name) => open.has(`${group.key} ${name}`))),
    table,
    areCausesOpen: table !== undefined && isTold(causeSets(group)),
    arePairsOpen: known && isTold(pairSets(group)),
  };
}
