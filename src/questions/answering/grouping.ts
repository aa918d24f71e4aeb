import type { RowColumn, RowExpression } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { Problem } from "../../problem/problem.ts";
import { rowColumns } from "./row-columns.ts";
import { figure } from "./wording.ts";

/** Eyes split by an expression over their columns. */
export interface Grouping {
  /** What they are split by, as a person reads it; undefined where they are not split. */
  readonly label?: string;
  readonly groups: readonly Group[];
  /** Columns that the split was made by, for the cautions that depend on them. */
  readonly by: readonly string[];
}

export interface Group {
  readonly label: string;
  /** Rows of the record. */
  readonly eyes: readonly number[];
}

/** More groups than this is a list, not a comparison. */
const mostGroups = 30;

export const notRecorded = "not recorded";

/**
 * The groups in the order of the column's codes, else of number or alphabet; eyes where the
 * expression is missing form a group of their own at the end. Without an expression all eyes are
 * one group. A day or too many different values is a problem, not a grouping.
 */
export function groupEyes(
  record: EyeRecord,
  by: RowExpression | undefined,
): { readonly grouping: Grouping } | { readonly problems: readonly Problem[] } {
  const all = Array.from(record.time, (_, eye) => eye);
  if (by === undefined) return { grouping: { groups: [{ label: "all eyes", eyes: all }], by: [] } };
  const bound = by.over(rowColumns(record.table));
  if (!bound.ok) return { problems: bound.problems };
  const groups = groupsOf(bound.column, all);
  if (groups.length > mostGroups) return { problems: [tooMany(by, groups.length)] };
  return { grouping: { label: labelOf(by, bound.column), groups, by: bound.names } };
}

/** A column by its heading; an expression, which would not read in a sentence, as "group". */
function labelOf(by: RowExpression, column: RowColumn): string {
  return /^\p{L}[\p{L}\d_]*$/u.test(by.text) ? column.label : "group";
}

function groupsOf(column: RowColumn, eyes: readonly number[]): Group[] {
  const byLabel = new Map<string, { label: string; value: unknown; eyes: number[] }>();
  const silent: number[] = [];
  for (const eye of eyes) {
    const value = column.at(eye);
    if (value === null) {
      silent.push(eye);
      continue;
    }
    const label = groupLabel(value);
    const group = byLabel.get(label);
    if (group === undefined) byLabel.set(label, { label, value, eyes: [eye] });
    else group.eyes.push(eye);
  }
  const ordered = [...byLabel.values()].sort(inOrder(column.order ?? []));
  const groups = ordered.map(({ label, eyes: members }) => ({ label, eyes: members }));
  return silent.length === 0 ? groups : [...groups, { label: notRecorded, eyes: silent }];
}

function groupLabel(value: number | boolean | string | readonly string[]): string {
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number") return figure(value, 2);
  if (typeof value === "string") return value;
  return value.length === 0 ? "none" : [...value].sort().join(" and ");
}

function inOrder(order: readonly string[]) {
  const place = (label: string): number => {
    const position = order.indexOf(label);
    return position < 0 ? order.length : position;
  };
  return (a: { label: string; value: unknown }, b: { label: string; value: unknown }): number => {
    if (typeof a.value === "number" && typeof b.value === "number") return a.value - b.value;
    const difference = place(a.label) - place(b.label);
    return difference !== 0 ? difference : a.label < b.label ? -1 : a.label > b.label ? 1 : 0;
  };
}

function tooMany(by: RowExpression, groups: number): Problem {
  return {
    code: "too-many-groups",
    severity: "stop",
    place: { span: by.span },
    message: `${by.text} takes ${groups} different values, too many to set side by side`,
    found: by.text,
    expected: `at most ${mostGroups} groups`,
    remedy:
      'gather the values into bands first, such as: if age < 50 then "under 50" else "50 or over"',
  };
}
