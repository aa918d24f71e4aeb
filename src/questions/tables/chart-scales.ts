import type { DrawnScale } from "../../charts/table-drawing.ts";
import type { RowColumn } from "../../formula/vocabulary.ts";

export const chartKinds = ["bars", "points", "line", "boxes"] as const;
export type ChartKind = (typeof chartKinds)[number];

/** Whether marks stand for groups of rows; else for rows. */
export function isOfGroups(as: ChartKind): boolean {
  return as === "bars" || as === "line";
}

/** The scale of values of a kind, or undefined for kinds that have no size. */
export function scaleOf(kind: RowColumn["kind"] | "share"): DrawnScale["kind"] | undefined {
  if (kind === "duration") return "days";
  return kind === "number" || kind === "day" || kind === "share" ? kind : undefined;
}

/** Bars and boxes stand over names, the others over an axis where there is one. */
export function hasNames(as: ChartKind, kind: RowColumn["kind"]): boolean {
  return as === "bars" || as === "boxes" || scaleOf(kind) === undefined;
}
