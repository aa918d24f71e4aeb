import type { RowExpression } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { Problem } from "../../problem/problem.ts";
import { groupRows } from "./group-rows.ts";

export { notRecorded } from "./group-rows.ts";

/** Eyes split by an expression over their columns. */
export interface Grouping {
  /** What they are split by, as a person reads it; undefined where they are not split. */
  readonly label?: string;
  readonly groups: readonly Group[];
  /** Columns that the split was made by, for the cautions that depend on them. */
  readonly by: readonly string[];
}

/** What a chart writes over the names of its rows; nothing where the split has no words of its own. */
export function splitOf({ label }: { readonly label?: string | undefined }): {
  readonly splitBy?: string;
} {
  return label === undefined || label === "group" ? {} : { splitBy: label };
}

export interface Group {
  readonly label: string;
  /** Rows of the record. */
  readonly eyes: readonly number[];
}

/** More groups than this is a list, not a comparison. */
const mostGroups = 30;

/**
 * The groups in the order of the column's codes, else of number, day or alphabet; eyes where the
 * expression is missing form a group of their own at the end. Without an expression all eyes are
 * one group. Too many different values is a problem, not a grouping.
 */
export function groupEyes(
  record: EyeRecord,
  by: RowExpression | undefined,
  most = mostGroups,
): { readonly grouping: Grouping } | { readonly problems: readonly Problem[] } {
  const all = Array.from(record.time, (_, eye) => eye);
  if (by === undefined) return { grouping: { groups: [{ label: "all eyes", eyes: all }], by: [] } };
  const grouped = groupRows(record.table, by, { rows: all, most });
  if ("problems" in grouped) return grouped;
  const { label, groups, by: names } = grouped.grouping;
  return {
    grouping: {
      label: label === by.text && !isName(label) ? "group" : label,
      groups: groups.map((group) => ({ label: group.label, eyes: group.rows })),
      by: names,
    },
  };
}

/** A column reads well in a sentence; an expression that has no words of its own does not. */
function isName(label: string): boolean {
  return /^\p{L}[\p{L}\d_]*$/u.test(label);
}
