import { columnNamed, type Table } from "../../cases/table.ts";
import type { RowColumn, RowExpression, RowValue } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { summaryText } from "../answering/cell-text.ts";
import { rowColumns } from "../answering/row-columns.ts";
import { workingLabel } from "../answering/working-label.ts";

/** One summing-up of the rows of several groups. */
export interface Summary {
  /** The name it was given, else its working in words: "median age". */
  readonly label: string;
  /** The free name it was given under. */
  readonly name?: string;
  /** `share` where the working is a share of rows. */
  readonly kind: RowColumn["kind"] | "share";
  /** Columns it was made from. */
  readonly names: readonly string[];
  /** Of one group; null where nothing is recorded. */
  at(group: number): RowValue;
  /** Values that were missing in a group and are left out of it. */
  missingIn(group: number): number;
  /** The rows they were missing in; undefined where the columns alone do not say. */
  missingRows(group: number): readonly number[] | undefined;
}

/** A working such as `median(age)` tied to groups of rows, or what is wrong with it. */
export function summaryOf(
  table: Table,
  working: RowExpression,
  groups: readonly (readonly number[])[],
): Summary | { readonly problems: readonly Problem[] } {
  if (working.overGroups === undefined) throw new Error("an expression that cannot sum up");
  const bound = working.overGroups(rowColumns(table), groups);
  if (!bound.ok) return { problems: bound.problems };
  const { column, names, missingIn } = bound;
  const isShare = column.kind === "number" && working.text.startsWith("share(");
  const isMissingIn = (row: number) =>
    names.some((name) => (columnNamed(table, name)?.values[row] ?? null) === null);
  return {
    label: working.name?.replaceAll("_", " ") ?? workingLabel(table, working.text),
    ...(working.name === undefined ? {} : { name: working.name }),
    kind: isShare ? "share" : column.kind,
    names,
    at: (group) => column.at(group),
    missingIn,
    missingRows: (group) => {
      const rows = (groups[group] ?? []).filter(isMissingIn);
      return rows.length === missingIn(group) ? rows : undefined;
    },
  };
}

/** The value of a group as shown. */
export function summaryValue(summary: Summary, group: number): string {
  return summaryText(summary.at(group), summary.kind);
}
