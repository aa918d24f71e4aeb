import type { Table } from "../../cases/table.ts";
import type { RowColumn, RowExpression } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { tableProblem } from "../tables/table-problem.ts";
import { valueText } from "./cell-text.ts";
import { groupedByText } from "./grouped-by-text.ts";
import { rowColumns } from "./row-columns.ts";
import { inOrder, type KnownValue } from "./value-order.ts";
import { workingLabel } from "./working-label.ts";

/** Rows of a table split by an expression over its columns. */
export interface RowGrouping {
  /** What they are split by, as a person reads it. */
  readonly label: string;
  readonly groups: readonly RowGroup[];
  /** Columns that the split was made by, for the cautions that depend on them. */
  readonly by: readonly string[];
}

export interface RowGroup {
  readonly label: string;
  readonly rows: readonly number[];
  /** What all its rows hold; null where it is missing. */
  readonly value: KnownValue | null;
}

export const notRecorded = "not recorded";

/**
 * The groups in the order of the column's codes, else of size, day or alphabet; rows where the
 * expression is missing are a group of their own at the end, never told apart by its label alone.
 */
export function groupsOf(column: RowColumn, rows: Iterable<number>): RowGroup[] {
  const byValue = new Map<string, { value: KnownValue; rows: number[] }>();
  const silent: number[] = [];
  for (const row of rows) {
    const value = column.at(row);
    if (value === null) {
      silent.push(row);
      continue;
    }
    const key = typeof value === "object" ? JSON.stringify([...value].sort()) : String(value);
    const group = byValue.get(key);
    if (group === undefined) byValue.set(key, { value, rows: [row] });
    else group.rows.push(row);
  }
  const compare = inOrder(column.order);
  const known = [...byValue.values()]
    .sort((one, other) => compare(one.value, other.value))
    .map((group) => ({ ...group, label: valueText(group.value, column.kind) }));
  const missing = { label: notRecorded, rows: silent, value: null };
  return silent.length === 0 ? known : [...known, missing];
}

/** The rows grouped, or what is wrong: a fault of the expression, or more groups than `most`. */
export function groupRows(
  table: Table,
  by: RowExpression,
  { rows, most }: { readonly rows: Iterable<number>; readonly most: number },
): { readonly grouping: RowGrouping } | { readonly problems: readonly Problem[] } {
  const bound = by.over(rowColumns(table));
  if (!bound.ok) return { problems: bound.problems };
  const groups = groupsOf(bound.column, rows);
  if (groups.length > most) return { problems: [tooMany(by, groups.length, most)] };
  const freeText = groupedByText(table, by, { names: bound.names, groups });
  if (freeText !== undefined) return { problems: [freeText] };
  return { grouping: { label: workingLabel(table, by.text), groups, by: bound.names } };
}

/** Rows told apart by the group that each is in, of so many groups. */
export function rowsByGroup(
  rows: readonly number[],
  { groupOf, groups }: { readonly groupOf: ReadonlyMap<number, number>; readonly groups: number },
): readonly (readonly number[])[] {
  const cells: number[][] = Array.from({ length: groups }, () => []);
  for (const row of rows) cells[groupOf.get(row) ?? -1]?.push(row);
  return cells;
}

/** The position of the group that a row is in. */
export function groupOfRow(groups: readonly RowGroup[]): ReadonlyMap<number, number> {
  return new Map(groups.flatMap(({ rows }, group) => rows.map((row) => [row, group] as const)));
}

function tooMany({ text, span }: RowExpression, groups: number, most: number): Problem {
  return tableProblem("too-many-groups", span, {
    message: `${text} takes ${groups} different values, too many to set side by side.`,
    found: text,
    expected: `at most ${most} groups`,
    remedy: `gather the values first, such as band(${text}, [40, 60]) or group_values(${text}, …)`,
  });
}
