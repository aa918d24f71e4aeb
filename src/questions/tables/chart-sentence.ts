import type { TableDrawing } from "../../charts/table-drawing.ts";
import type { Sentence } from "../answer.ts";
import { notRecorded } from "../answering/group-rows.ts";
import { count, counted } from "../answering/wording.ts";
import type { ChartPlan } from "./chart-plan.ts";
import { placeLabels, upText } from "./chart-table.ts";
import { oneRow } from "./table-answer.ts";

/** What is drawn, of how many, and from where to where it goes. */
export function chartSentence(plan: ChartPlan, drawing: TableDrawing): Sentence {
  const { value, across, by, missing } = plan;
  const rows = value.lines.length;
  const one = oneRow(value);
  if (rows === 0) return [`There are no ${one}s to draw.`];
  const split = by === undefined ? "" : `, by ${by}`;
  const silent = missing === 0 ? "" : `; ${counted(missing, "value")} missing`;
  const what = drawing.up.kind === "count" ? `number of ${one}s` : upLabel(plan, drawing);
  return [
    `${counted(rows, one)}: ${what} over ${across.label}${split}${ends(plan, drawing)}${silent}.`,
  ];
}

function upLabel({ as }: ChartPlan, { up }: TableDrawing): string {
  return as === "boxes" ? `median ${up.label}` : up.label;
}

/** ", from 52 (buckle) to 64 (vitrectomy)", of the marks whose place and group are recorded. */
function ends(plan: ChartPlan, drawing: TableDrawing): string {
  const labels = placeLabels(plan.places, drawing);
  const drawn = drawing.marks.flatMap((mark, i) => {
    const isNamed = labels[i] !== notRecorded && plan.groups[mark.group]?.value !== null;
    const names = [labels[i], drawing.groups[mark.group]].filter((name) => name !== undefined);
    return mark.up === null || !isNamed ? [] : [{ up: mark.up, name: names.join(", ") }];
  });
  const [first] = drawn;
  if (first === undefined) return ", with no value recorded";
  const least = drawn.reduce((best, each) => (each.up < best.up ? each : best), first);
  const most = drawn.reduce((best, each) => (each.up > best.up ? each : best), first);
  const text = (held: number) =>
    drawing.up.kind === "count" ? count(held) : upText(held, drawing);
  if (drawn.length === 1) return `, ${text(first.up)}`;
  if (least.up === most.up) return `, ${text(least.up)} in each`;
  const at = ({ up, name }: typeof first) =>
    plan.as === "points" ? text(up) : `${text(up)} (${name})`;
  return `, from ${at(least)} to ${at(most)}`;
}
