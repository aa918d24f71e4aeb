import type { DrawnScale, TableDrawing, TableMark } from "../../charts/table-drawing.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { groupOfRow, type RowGroup, rowsByGroup } from "../answering/group-rows.ts";
import { boxOf } from "./box-of.ts";
import type { ChartPlan } from "./chart-plan.ts";
import { hasNames, scaleOf } from "./chart-scales.ts";

/** The plan as finished numbers, each mark leading to the rows behind it. */
export function drawingOf(plan: ChartPlan, picks: PickBook): TableDrawing {
  const { as, across, places, by, groups } = plan;
  const named = hasNames(as, across.kind);
  const kind = named ? "groups" : (scaleOf(across.kind) ?? "groups");
  return {
    as,
    across: {
      label: across.label,
      kind,
      ...(named ? { names: places.map(({ label }) => label) } : {}),
    },
    up: upScale(plan),
    groups: by === undefined ? [] : groups.map(({ label }) => label),
    ...(by === undefined ? {} : { by }),
    marks: as === "points" ? pointsOf(plan, picks) : cellsOf(plan, picks),
  };
}

function upScale({ up, value }: ChartPlan): DrawnScale {
  if (up === "count") return { label: value.unit, kind: "count" };
  const { label, kind } = "row" in up ? up.row : up.summary;
  return { label, kind: scaleOf(kind) ?? "number" };
}

/** Where a group stands across: its position among the names, or its value. */
function acrossOf({ as, across }: ChartPlan, place: RowGroup, position: number): number {
  return hasNames(as, across.kind) || typeof place.value !== "number" ? position : place.value;
}

function pointsOf(plan: ChartPlan, picks: PickBook): TableMark[] {
  const { up } = plan;
  if (up === "count" || !("row" in up)) throw new Error("points of what sums up");
  const groupOf = groupOfRow(plan.groups);
  return plan.places.flatMap((place, position) =>
    place.rows.map((row) => {
      const pick = picks.add(`p${row}`, `${place.label}, one row`, [row]);
      return {
        across: acrossOf(plan, place, position),
        up: up.row.at(row) as number,
        group: groupOf.get(row) ?? 0,
        rows: 1,
        ...(pick === undefined ? {} : { pick }),
      };
    }),
  );
}

/** One mark for each group at each place; none where a line or box would stand for no rows. */
function cellsOf(plan: ChartPlan, picks: PickBook): TableMark[] {
  const { as, places, groups, by } = plan;
  const membership = { groupOf: groupOfRow(groups), groups: groups.length };
  return places.flatMap((place, i) => {
    const cells = rowsByGroup(place.rows, membership);
    return groups.flatMap((group, j): TableMark[] => {
      const rows = cells[j] ?? [];
      if (rows.length === 0 && as === "boxes") return [];
      const title = by === undefined ? place.label : `${place.label}, ${group.label}`;
      const pick = picks.add(`m${i}:${j}`, title, rows);
      return [
        {
          across: acrossOf(plan, place, i),
          group: j,
          rows: rows.length,
          ...heightOf(plan, { rows, cell: i * groups.length + j, picks }),
          ...(pick === undefined ? {} : { pick }),
        },
      ];
    });
  });
}

interface Cell {
  readonly rows: readonly number[];
  readonly cell: number;
  readonly picks: PickBook;
}

function heightOf(
  { up }: ChartPlan,
  { rows, cell, picks }: Cell,
): Pick<TableMark, "up" | "spread"> {
  if (up === "count") return { up: rows.length };
  if ("summary" in up) {
    const held = rows.length === 0 ? null : up.summary.at(cell);
    return { up: typeof held === "number" ? held : null };
  }
  return boxOf(rows, (row) => up.row.at(row) as number, picks);
}
