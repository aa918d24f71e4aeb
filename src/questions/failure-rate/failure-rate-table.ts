import type { AnswerCell, AnswerColumn, AnswerTable } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { estimateCell, limitsCell } from "../answering/estimate-cell.ts";
import { percent } from "../answering/wording.ts";
import type { RateParts } from "./failure-rate-parts.ts";
import { type GroupRate, headlineOf, isByCurve } from "./rate-of-group.ts";

/** One row a group and one for all eyes, every count leading to its eyes. */
export function rateTable(
  parts: RateParts,
  rows: readonly GroupRate[],
  picks: PickBook,
): AnswerTable {
  const most = scaleEnd(rows, parts.beside);
  return {
    columns: columnsOf(parts),
    rows: rows.map((rate, position) =>
      rateRow(rate, { key: rowKey(rows, position), most, picks, parts }),
    ),
  };
}

/** The last row is that of all eyes. */
export function rowKey(rows: readonly GroupRate[], position: number): string {
  return position === rows.length - 1 ? "all" : `g${position}`;
}

function columnsOf({ grouping, window, beside, total }: RateParts): AnswerColumn[] {
  const method = total.interval?.method;
  const how = isByCurve(total) ? ", by the curve" : "";
  const known: AnswerColumn[] = [
    { label: "outcome known", kind: "number" },
    { label: `failed of known (95%${method === undefined ? "" : ` ${method}`})`, kind: "estimate" },
  ];
  return [
    { label: grouping.label ?? "", kind: "text" },
    { label: "eyes", kind: "number" },
    { label: "failed", kind: "number" },
    ...(window === undefined
      ? known
      : [{ label: `failed by ${window.text}${how} (95%)`, kind: "estimate" as const }]),
    { label: beside === undefined ? "" : `beside ${percent(beside)}`, kind: "mark" },
    ...(window === undefined ? [] : known),
    { label: "not known", kind: "number" },
    { label: "bounds", kind: "interval" },
  ];
}

function rateRow(
  rate: GroupRate,
  context: { key: string; most: number; picks: PickBook; parts: RateParts },
): AnswerCell[] {
  const { key, most, picks, parts } = context;
  const openable = (what: string, eyes: readonly number[]): AnswerCell =>
    picks.cell(`${key}:${what}`, `${rate.label}, ${what}`, eyes);
  const known = [openable("known", rate.knownEyes), estimateCell(rate.rate, rate.interval)];
  const windowed = parts.window !== undefined;
  return [
    { text: rate.label, value: rate.label },
    openable("all", [...rate.knownEyes, ...rate.unknownEyes]),
    openable("failed", rate.failedEyes),
    ...(windowed ? [headlineCell(rate)] : known),
    markCell(rate, most, parts.beside),
    ...(windowed ? known : []),
    openable("not known", rate.unknownEyes),
    limitsCell(boundsOf(rate)),
  ];
}

function headlineCell(rate: GroupRate): AnswerCell {
  const headline = headlineOf(rate);
  return estimateCell(headline?.estimate ?? null, headline);
}

function boundsOf({ lowest, highest }: GroupRate) {
  return lowest === null || highest === null ? null : { lower: lowest, upper: highest };
}

function markCell(rate: GroupRate, most: number, beside: number | undefined): AnswerCell {
  const headline = headlineOf(rate);
  if (headline === null) return { text: "", value: null };
  const { estimate, lower, upper } = headline;
  const reference = beside === undefined ? {} : { reference: beside };
  return { text: "", value: null, mark: { rate: estimate, lower, upper, most, ...reference } };
}

/** The scale shared by the column: up to the next tenth above the widest interval. */
function scaleEnd(rows: readonly GroupRate[], beside: number | undefined): number {
  const ends = rows.map((rate) => headlineOf(rate)?.upper ?? 0);
  return Math.min(1, Math.ceil(10 * Math.max(0.1, beside ?? 0, ...ends)) / 10);
}
