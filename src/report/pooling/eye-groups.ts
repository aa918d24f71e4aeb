import { smallerGroups } from "../../aggregates/aggregates-file.ts";
import { columnNamed } from "../../cases/table.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { SmallCounts } from "./small-counts.ts";

/** A group of the eyes that are handed over as counts. */
export interface EyeGroup {
  readonly by: readonly { readonly column: string; readonly value: string }[];
  /** Rows of the record. */
  readonly eyes: readonly number[];
}

/**
 * All eyes, then the groups of each grouping. Groups under the threshold stand together without
 * their names: that an operation or a state was there at all can be as telling as how often.
 */
export function eyeGroups(
  record: EyeRecord,
  groupings: readonly (readonly string[])[],
  { isShowable }: SmallCounts,
): EyeGroup[] {
  const all = Array.from(record.time, (_, eye) => eye);
  return [
    { by: [], eyes: all },
    ...groupings.flatMap((columns) => groupsBy(record, columns, { all, isShowable })),
  ];
}

function groupsBy(
  record: EyeRecord,
  columns: readonly string[],
  {
    all,
    isShowable,
  }: { readonly all: readonly number[]; readonly isShowable: SmallCounts["isShowable"] },
): EyeGroup[] {
  const readers = columns.map((column) => valueReader(record, column));
  const groups = new Map<string, { values: string[]; eyes: number[] }>();
  for (const eye of all) {
    const values = readers.map((read) => read(eye));
    const key = JSON.stringify(values);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { values, eyes: [eye] });
    else group.eyes.push(eye);
  }
  const ordered = [...groups].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, group]) => group);
  const named = ordered.filter(({ eyes }) => isShowable(eyes));
  const rest = ordered.filter(({ eyes }) => !isShowable(eyes)).flatMap(({ eyes }) => eyes);
  const labelled = (values: readonly string[]) =>
    columns.map((column, at) => ({ column, value: values[at] ?? "" }));
  return [
    ...named.map(({ values, eyes }) => ({ by: labelled(values), eyes })),
    ...(rest.length === 0
      ? []
      : [{ by: labelled(columns.map(() => smallerGroups)), eyes: rest.sort((a, b) => a - b) }]),
  ];
}

/** What stands in a column for an eye, as text: "yes", "PVR and new break", "not recorded". */
export function valueReader(record: EyeRecord, column: string): (eye: number) => string {
  const values = columnNamed(record.table, column)?.values ?? [];
  return (eye) => {
    const value = values[eye] ?? null;
    if (value === null) return "not recorded";
    if (typeof value === "boolean") return value ? "yes" : "no";
    return typeof value === "object" ? [...value].sort().join(" and ") : String(value);
  };
}
