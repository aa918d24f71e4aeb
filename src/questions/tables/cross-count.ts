import {
  groupOfRow,
  type RowGroup,
  type RowGrouping,
  rowsByGroup,
} from "../answering/group-rows.ts";

/** Rows counted by one split, or by two against each other. */
export interface CrossCount {
  readonly by: RowGrouping;
  readonly against: RowGrouping | undefined;
  /** All rows counted. */
  readonly rows: readonly number[];
  /** By group of `by`, then by group of `against`: the rows in both. */
  readonly cells: readonly (readonly (readonly number[])[])[];
}

export function crossCount(
  rows: readonly number[],
  by: RowGrouping,
  against?: RowGrouping,
): CrossCount {
  const columns = against?.groups ?? [];
  const membership = { groupOf: groupOfRow(columns), groups: columns.length };
  const cells = by.groups.map((group) => rowsByGroup(group.rows, membership));
  return { by, against, rows, cells };
}

/** The same counts with rows and columns exchanged; as they are where there is one split. */
export function turned(counts: CrossCount): CrossCount {
  const { by, against, cells } = counts;
  if (against === undefined) return counts;
  const columns = against.groups.map((_, j) => cells.map((row) => row[j] ?? []));
  return { ...counts, by: against, against: by, cells: columns };
}

/** A share of a whole, null where the whole is nothing. */
export function shareOf(part: number, whole: number): number | null {
  return whole === 0 ? null : part / whole;
}

/** Rows whose group is missing. */
export function missingRows(groups: readonly RowGroup[]): readonly number[] {
  return groups.find(({ value }) => value === null)?.rows ?? [];
}
