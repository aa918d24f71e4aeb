import {
  type AggregateGroup,
  type AggregatesFile,
  aggregatesVersion,
  type Count,
  type Quantity,
  type TimeTable,
} from "../../aggregates/aggregates-file.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { eyeGroups } from "./eye-groups.ts";
import { groupToRelease } from "./group-to-release.ts";
import { type ReleasedGroup, releasedCounts, type ShownBefore } from "./released-counts.ts";
import { smallCounts } from "./small-counts.ts";
import { pinnedCounts, withoutPinnedCounts } from "./without-pinned-counts.ts";

export interface AggregatesAsked {
  readonly version: string;
  readonly unit: string;
  readonly period?: string;
  readonly threshold: number;
  /** Columns of each grouping. */
  readonly groupings: readonly (readonly string[])[];
  /** What the shared report of the same notebook shows. */
  readonly before: ShownBefore;
  /** The key of an eye's row, as the shared report has it; of one file its line. */
  readonly keyOf?: (eye: number) => number;
  /** The patient of each row of the cases, by its key, of eyes that are not in the record as well. */
  readonly patientOf?: ReadonlyMap<number, string>;
}

/** The aggregates of eyes that are followed for a window, in days; see `aggregatesOfSession`. */
export function aggregatesOfRecord(
  record: EyeRecord,
  definition: AggregatesFile["definition"],
  asked: AggregatesAsked,
): AggregatesFile {
  const { threshold, before, period } = asked;
  const small = smallCounts(record, threshold);
  const groups = eyeGroups(record, asked.groupings, small).map((group) =>
    groupToRelease(record, group, { days: definition.days, small }),
  );
  const keyOf = asked.keyOf ?? ((eye: number) => record.lines[eye]?.[0] ?? 0);
  const patientOf = new Map([...patientsOf(record, keyOf), ...(asked.patientOf ?? [])]);
  const file =
    (most: number | undefined) =>
    (released: readonly ReleasedGroup[]): AggregatesFile => ({
      holdfast_aggregates: aggregatesVersion,
      made_by: `Holdfast ${asked.version}`,
      unit: asked.unit,
      ...(period === undefined ? {} : { period }),
      definition,
      smallest_count: threshold,
      groups: released.map((group) => groupInFile(group, most)),
    });
  const [plain, bounded] = [file(undefined), file(2 * threshold - 1)];
  const linear = releasedCounts(groups, { threshold, keyOf, patientOf, before });
  const released = withoutPinnedCounts(linear, plain, small);
  const isBounded = pinnedCounts(released, bounded, small).length === 0;
  return isBounded ? bounded(released) : plain(released);
}

function patientsOf({ patient }: EyeRecord, keyOf: (eye: number) => number): [number, string][] {
  return patient.flatMap((each, eye): [number, string][] =>
    each === null ? [] : [[keyOf(eye), each]],
  );
}

/**
 * A withheld count that is less than twice the threshold says so, whether it is itself small or
 * only guards one that is: pooled answers are bounded by it, and which counts are small stays open.
 */
function groupInFile(
  { group, open, table, areCausesOpen, arePairsOpen }: ReleasedGroup,
  most: number | undefined,
): AggregateGroup {
  const count = (name: Quantity): Count => {
    const { length } = group[name];
    if (open.has(name)) return length;
    return { withheld: true, ...(most !== undefined && length <= most ? { most } : {}) };
  };
  return {
    by: group.by,
    ...{ eyes: count("eyes"), failed: count("failed") },
    ...{ held: count("held"), unknown: count("unknown") },
    ...(arePairsOpen && group.pairs !== undefined ? { pairs: pairsInFile(group.pairs) } : {}),
    ...(table === undefined ? {} : { times: timesInFile(table, group) }),
    ...(areCausesOpen && group.causes !== undefined ? { causes: causesInFile(group.causes) } : {}),
  };
}

function pairsInFile({ none, one, both }: NonNullable<ReleasedGroup["group"]["pairs"]>) {
  return { none: none.length / 2, one: one.length / 2, both: both.length / 2 };
}

function timesInFile(
  table: NonNullable<ReleasedGroup["table"]>,
  { reached, areDeathsApart }: ReleasedGroup["group"],
): TimeTable {
  const bands = table.map(({ from, to, failed, ended, died }) => ({
    ...{ from, to, failed: failed.length },
    ...{ ended: ended.length, died: died.length },
  }));
  const deaths = areDeathsApart ? "apart" : "among ended";
  return { bands, reached: reached.length, deaths };
}

function causesInFile({ names, bands }: NonNullable<ReleasedGroup["group"]["causes"]>) {
  return {
    names,
    bands: bands.map(({ from, to, failed }) => ({
      ...{ from, to },
      failed: failed.map(({ length }) => length),
    })),
  };
}
