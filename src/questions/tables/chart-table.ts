import type { TableDrawing, TableMark } from "../../charts/table-drawing.ts";
import { sampleQuantile } from "../../statistics/sample-quantile.ts";
import type { AnswerCell, AnswerColumn, AnswerTable } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { nothing, numberText, valueText } from "../answering/cell-text.ts";
import { percent } from "../answering/wording.ts";
import type { ChartPlan } from "./chart-plan.ts";

/** The numbers drawn; of points, how they spread in each group. */
export function chartTable(plan: ChartPlan, drawing: TableDrawing, picks: PickBook): AnswerTable {
  return plan.as === "points" ? spreadTable(plan, drawing, picks) : markTable(plan, drawing);
}

function number(label: string): AnswerColumn {
  return { label, kind: "number" };
}

function markTable({ across, value, places, as }: ChartPlan, drawing: TableDrawing): AnswerTable {
  const { by, groups, up } = drawing;
  const isCount = up.kind === "count";
  const label = as === "boxes" ? `median ${up.label}` : up.label;
  const boxColumns = ["least", "lower quartile", "upper quartile", "greatest"].map(number);
  const labels = placeLabels(places, drawing);
  return {
    columns: [
      { label: across.label, kind: "text" },
      ...(by === undefined ? [] : [{ label: by, kind: "text" as const }]),
      number(value.unit),
      ...(isCount ? [] : [number(label)]),
      ...(as === "boxes" ? boxColumns : []),
    ],
    rows: drawing.marks.map((mark, position): AnswerCell[] => [
      textCell(labels[position] ?? ""),
      ...(by === undefined ? [] : [textCell(groups[mark.group] ?? "")]),
      {
        text: numberText(mark.rows),
        value: mark.rows,
        ...(mark.pick === undefined ? {} : { pick: mark.pick }),
      },
      ...(isCount ? [] : [valueCell(mark.up, drawing)]),
      ...(as === "boxes" ? boxCells(mark, drawing) : []),
    ]),
  };
}

/** The label of the place of each mark. */
export function placeLabels(
  places: ChartPlan["places"],
  { across, marks }: TableDrawing,
): string[] {
  const byValue = new Map(places.map(({ value, label }) => [value, label]));
  return marks.map((mark) => across.names?.[mark.across] ?? byValue.get(mark.across) ?? "");
}

/** The ends are those of all values, not of the whiskers. */
function boxCells({ spread }: TableMark, drawing: TableDrawing): AnswerCell[] {
  if (spread === undefined) return [];
  const beyond = spread.beyond.map(({ up }) => up);
  const least = Math.min(spread.least, ...beyond);
  const greatest = Math.max(spread.most, ...beyond);
  return [least, spread.lower, spread.upper, greatest].map((each) => valueCell(each, drawing));
}

function spreadTable(plan: ChartPlan, drawing: TableDrawing, picks: PickBook): AnswerTable {
  const { groups, by, value } = plan;
  const { up, marks } = drawing;
  return {
    columns: [
      { label: by ?? "", kind: "text" },
      number(value.unit),
      ...["least", "median", "greatest"].map((which) => number(`${which} ${up.label}`)),
    ],
    rows: groups.map((group, position) => {
      const label = by === undefined ? `all ${value.unit}` : group.label;
      const ordered = marks
        .flatMap((mark) => (mark.group === position && mark.up !== null ? [mark.up] : []))
        .sort((one, other) => one - other);
      return [
        textCell(label),
        picks.cell(`g${position}`, label, group.rows),
        ...[0, 0.5, 1].map((share) => valueCell(sampleQuantile(ordered, share), drawing)),
      ];
    }),
  };
}

function textCell(text: string): AnswerCell {
  return { text, value: text };
}

/** A value on the scale that goes up. */
export function upText(held: number, { up }: TableDrawing): string {
  if (up.kind === "share") return percent(held);
  return up.kind === "day" ? valueText(Math.round(held), "day") : numberText(held);
}

function valueCell(held: number | null, drawing: TableDrawing): AnswerCell {
  return held === null
    ? { text: nothing, value: null }
    : { text: upText(held, drawing), value: held };
}
