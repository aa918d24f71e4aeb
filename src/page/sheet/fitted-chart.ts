import type { CaseFlow } from "../../charts/case-flow.ts";
import { type ChartRequest, layChart } from "../../charts/chart-request.ts";
import type { SectionedRates } from "../../charts/sectioned-rates.ts";
import type { TableDrawing } from "../../charts/table-drawing.ts";
import { labels } from "../labels.ts";

/** Pixels of the chart as it is laid out, before it is drawn larger. */
export interface StageSize {
  readonly width: number;
  readonly height: number;
}

export interface FittedChart {
  readonly request: ChartRequest;
  readonly width: number;
  readonly tallest: number;
  /** Rows that there was no room for. */
  readonly unshown: number;
}

/** Pixels for the line that says how many rows are not shown. */
const lineOfUnshown = 24;
const narrower = [1, 0.85, 0.72];

/**
 * The chart made to fit a stage at the size of its text: its plot lower, the whole narrower, and
 * only then with fewer rows, from the last. Undefined where even one row is too tall.
 */
export function fittedChart(request: ChartRequest, stage: StageSize): FittedChart | undefined {
  const all = rowsIn(request);
  for (let rows = all; rows > 0; rows--) {
    const cut = rows === all ? { request, unshown: 0 } : withRows(request, rows);
    const tallest = stage.height - (cut.unshown > 0 ? lineOfUnshown : 0);
    const width = narrower
      .map((share) => Math.round(stage.width * share))
      .find((each) => layChart(cut.request, { width: each, tallest }).height <= tallest);
    if (width !== undefined) return { ...cut, width, tallest };
  }
  return undefined;
}

/** Rows that a chart can be cut to: of a flow, the reasons of its longest box; else 1. */
function rowsIn(request: ChartRequest): number {
  switch (request.draw) {
    case "intervals":
      return Math.max(1, request.intervals.rows.length);
    case "effects":
      return Math.max(1, request.effects.rows.length);
    case "sectioned rates":
      return Math.max(1, sum(request.rates.sections.map(({ rows }) => rows.length)));
    case "flow":
      return Math.max(1, ...request.flow.stages.map(({ leftOut }) => leftOut.length));
    case "table":
      return Math.max(1, request.drawing.across.names?.length ?? 1);
    default:
      return 1;
  }
}

function withRows(request: ChartRequest, rows: number): Pick<FittedChart, "request" | "unshown"> {
  const unshown = rowsIn(request) - rows;
  switch (request.draw) {
    case "intervals": {
      const { intervals } = request;
      const cut = { ...intervals, rows: intervals.rows.slice(0, rows) };
      return { request: { ...request, intervals: cut }, unshown };
    }
    case "effects": {
      const { effects } = request;
      const cut = { ...effects, rows: withLastSummary(effects.rows, rows) };
      return { request: { ...request, effects: cut }, unshown };
    }
    case "sectioned rates":
      return { request: { ...request, rates: firstSections(request.rates, rows) }, unshown };
    case "flow":
      return { request: { ...request, flow: withReasons(request.flow, rows) }, unshown: 0 };
    case "table":
      return { request: { ...request, drawing: firstNames(request.drawing, rows) }, unshown };
    default:
      return { request, unshown: 0 };
  }
}

/** The row that sums up the others stays. */
function withLastSummary<Row extends { readonly isSummary?: boolean }>(
  all: readonly Row[],
  rows: number,
): readonly Row[] {
  const last = all.at(-1);
  if (last?.isSummary !== true) return all.slice(0, rows);
  return [...all.slice(0, rows - 1), last];
}

function firstSections(rates: SectionedRates, rows: number): SectionedRates {
  let room = rows;
  const sections = rates.sections.map((section) => {
    const kept = section.rows.slice(0, Math.max(0, room));
    room -= section.rows.length;
    return { ...section, rows: kept };
  });
  return { ...rates, sections: sections.filter(({ rows: kept }) => kept.length > 0) };
}

/** Reasons beyond the most frequent are counted together: nothing is lost from the sum. */
function withReasons(flow: CaseFlow, reasons: number): CaseFlow {
  const stages = flow.stages.map((stage) => {
    if (stage.leftOut.length <= reasons) return stage;
    const ordered = [...stage.leftOut].sort((one, other) => other.count - one.count);
    const rest = ordered.slice(reasons - 1);
    const label = labels.otherReasons(rest.length, stage.leftOut.length);
    const others = { label, count: sum(rest.map(({ count }) => count)) };
    return { ...stage, leftOut: [...ordered.slice(0, reasons - 1), others] };
  });
  return { ...flow, stages };
}

function firstNames(drawing: TableDrawing, rows: number): TableDrawing {
  const { across, marks } = drawing;
  if (across.names === undefined) return drawing;
  return {
    ...drawing,
    across: { ...across, names: across.names.slice(0, rows) },
    marks: marks.filter((mark) => mark.across < rows),
  };
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}
