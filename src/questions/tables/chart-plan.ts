import type { RowColumn, RowExpression } from "../../formula/vocabulary.ts";
import type { Problem, Span } from "../../problem/problem.ts";
import { groupOfRow, groupRows, type RowGroup, rowsByGroup } from "../answering/group-rows.ts";
import { rowColumns } from "../answering/row-columns.ts";
import { workingLabel } from "../answering/working-label.ts";
import { type ChartKind, hasNames, isOfGroups, scaleOf } from "./chart-scales.ts";
import { type Summary, summaryOf } from "./summary.ts";
import { tableProblem } from "./table-problem.ts";
import { everyRow, type TableValue, withRows } from "./table-value.ts";

export interface ChartAsked {
  readonly as: ChartKind;
  readonly across: RowExpression;
  readonly up: RowExpression | undefined;
  readonly by: RowExpression | undefined;
  readonly span: Span;
}

/** What is to be drawn, of rows that can be placed. */
export interface ChartPlan {
  readonly as: ChartKind;
  /** Without the rows that cannot be placed. */
  readonly value: TableValue;
  readonly across: RowColumn;
  /** The groups across, or every value where marks stand over an axis. */
  readonly places: readonly RowGroup[];
  readonly by: string | undefined;
  /** One group of all rows where they are not told apart. */
  readonly groups: readonly RowGroup[];
  /** What stands up: of a row, of a group (by place, then by group), or the number of rows. */
  readonly up: { readonly row: RowColumn } | { readonly summary: Summary } | "count";
  /** Values left out of the summaries, of all rows. */
  readonly missing: number;
  readonly names: readonly string[];
  /** Columns that groups whose outcomes are set side by side were made by. */
  readonly compares: readonly string[];
}

const mostPlaces = 200;
const mostGroups = 12;

type Planned = { readonly plan: ChartPlan } | { readonly problems: readonly Problem[] };

export function chartPlan(value: TableValue, asked: ChartAsked): Planned {
  const { as, up } = asked;
  if (!isOfGroups(as) && up === undefined) return { problems: [nothingUp(asked)] };
  const placed = placeable(value, asked);
  if ("problems" in placed) return placed;
  return planOver(placed.value, asked);
}

/** The table without rows that have no place across, or for points and boxes no value up. */
function placeable(
  value: TableValue,
  { as, across, up }: ChartAsked,
): { readonly value: TableValue } | { readonly problems: readonly Problem[] } {
  const bound = across.over(rowColumns(value.table));
  if (!bound.ok) return { problems: bound.problems };
  const needed: RowColumn[] = hasNames(as, bound.column.kind) ? [] : [bound.column];
  if (!isOfGroups(as) && up !== undefined) {
    const boundUp = up.over(rowColumns(value.table));
    if (!boundUp.ok) return { problems: boundUp.problems };
    if (scaleOf(boundUp.column.kind) === undefined) return { problems: [noSize(up)] };
    needed.push(boundUp.column);
  }
  const rows = everyRow(value.table);
  const lacking = (row: number) => needed.find((column) => column.at(row) === null);
  const leaving = needed.map((column) => ({
    reason: `${column.label} not recorded`,
    rows: rows.filter((row) => lacking(row) === column),
    asked: false,
  }));
  const kept = rows.filter((row) => lacking(row) === undefined);
  return { value: withRows(value, kept, leaving) };
}

function planOver(value: TableValue, { as, across, up, by }: ChartAsked): Planned {
  const { table } = value;
  const rows = everyRow(table);
  const bound = across.over(rowColumns(table));
  const isNamed = bound.ok && hasNames(as, bound.column.kind);
  const most = isNamed ? mostPlaces : Number.POSITIVE_INFINITY;
  const places = groupRows(table, across, { rows, most });
  const groups = by === undefined ? undefined : groupRows(table, by, { rows, most: mostGroups });
  const problems = [places, groups].flatMap((each) =>
    each !== undefined && "problems" in each ? each.problems : [],
  );
  if (!bound.ok || "problems" in places || (groups && "problems" in groups)) return { problems };
  const split = groups?.grouping.groups ?? [{ label: "", rows, value: "" }];
  const tied = upOf(value, { as, up, places: places.grouping.groups, split });
  if ("problems" in tied) return tied;
  const compares = [...places.grouping.by, ...(groups?.grouping.by ?? [])];
  return {
    plan: {
      ...{
        as,
        value,
        across: { ...bound.column, label: places.grouping.label },
        up: tied.up,
        missing: tied.missing,
      },
      places: places.grouping.groups,
      by: groups?.grouping.label,
      groups: split,
      names: [...new Set([...compares, ...tied.names])],
      compares: up === undefined ? [] : compares,
    },
  };
}

interface UpAsked extends Pick<ChartAsked, "as" | "up"> {
  readonly places: readonly RowGroup[];
  readonly split: readonly RowGroup[];
}

type Tied = Pick<ChartPlan, "up" | "missing" | "names"> | { readonly problems: readonly Problem[] };

function upOf({ table }: TableValue, { as, up, places, split }: UpAsked): Tied {
  if (up === undefined) return { up: "count", missing: 0, names: [] };
  if (!isOfGroups(as)) {
    const bound = up.over(rowColumns(table));
    if (!bound.ok) return { problems: bound.problems };
    const row = { ...bound.column, label: workingLabel(table, up.text) };
    return { up: { row }, missing: 0, names: bound.names };
  }
  const membership = { groupOf: groupOfRow(split), groups: split.length };
  const cells = places.flatMap((place) => rowsByGroup(place.rows, membership));
  const summary = summaryOf(table, up, [...cells, everyRow(table)]);
  if ("problems" in summary) return summary;
  if (scaleOf(summary.kind) === undefined || summary.kind === "day") {
    return { problems: [noSize(up)] };
  }
  return { up: { summary }, missing: summary.missingIn(cells.length), names: summary.names };
}

function nothingUp({ as, span }: ChartAsked): Problem {
  return tableProblem("nothing-to-draw", span, {
    message: `${as} need a value that goes up.`,
    expected: `up: and a column with numbers, such as up: age`,
  });
}

function noSize({ text, span }: RowExpression): Problem {
  return tableProblem("number-expected", span, {
    message: `${text} has no size, so it cannot go up.`,
    found: text,
    expected: "a number or a length of time",
    remedy: "leave up: out to draw how many rows there are",
  });
}
