import type { Table } from "../../cases/table.ts";
import { groupsOf } from "../answering/group-rows.ts";
import { rowColumns } from "../answering/row-columns.ts";
import { shareOf } from "../tables/cross-count.ts";
import type { NeededField } from "./needed-fields.ts";

/** What is missing of one field, of one surgeon's rows or of one month's. */
export interface Gap {
  /** The name of a field; undefined for a group. */
  readonly field?: string;
  /** False for the rows whose group is not recorded. */
  readonly isNamed: boolean;
  readonly label: string;
  /** Values that ought to be there, and those that are not. */
  readonly needed: number;
  readonly missing: number;
  readonly share: number | null;
  /** Rows in which any of them is missing. */
  readonly rows: readonly number[];
}

/** Fields with most missing first; those of equal share as they stand in the file. */
export function gapsByField(fields: readonly NeededField[]): Gap[] {
  return fields
    .map(({ column, needed, missing }) => ({
      field: column.name,
      isNamed: true,
      label: column.label,
      needed: needed.length,
      missing: missing.length,
      share: shareOf(missing.length, needed.length),
      rows: missing,
    }))
    .sort((one, other) => (other.share ?? -1) - (one.share ?? -1));
}

/** All fields together by the groups of a column, in its order; none where there is no column. */
export function gapsByGroup(
  table: Table,
  fields: readonly NeededField[],
  split: { readonly column: string; readonly shown: (value: unknown) => string | null },
): Gap[] {
  const column = rowColumns(table).column(split.column);
  if (column === undefined) return [];
  const rows = Array.from({ length: table.columns[0]?.values.length ?? 0 }, (_, row) => row);
  const at = (row: number) => split.shown(column.at(row));
  const needed = tally(
    rows.length,
    fields.map((field) => field.needed),
  );
  const missing = tally(
    rows.length,
    fields.map((field) => field.missing),
  );
  return groupsOf({ kind: "text", label: column.label, at }, rows).map((group) => {
    const sum = (counts: readonly number[]) =>
      group.rows.reduce((total, row) => total + (counts[row] ?? 0), 0);
    return {
      isNamed: group.value !== null,
      label: group.label,
      needed: sum(needed),
      missing: sum(missing),
      share: shareOf(sum(missing), sum(needed)),
      rows: group.rows.filter((row) => (missing[row] ?? 0) > 0),
    };
  });
}

/** How often each row comes in the lists. */
function tally(length: number, lists: readonly (readonly number[])[]): number[] {
  const counts = new Array<number>(length).fill(0);
  for (const rows of lists) for (const row of rows) counts[row] = (counts[row] ?? 0) + 1;
  return counts;
}
