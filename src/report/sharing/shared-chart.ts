import type { AttachmentCurves } from "../../charts/attachment-curves.ts";
import type { ChartRequest } from "../../charts/chart-request.ts";
import type { EffectIntervals } from "../../charts/effect-intervals.ts";
import type { TableDrawing } from "../../charts/table-drawing.ts";
import type { Answer } from "../../questions/answer.ts";
import { curvesOf, failedKey } from "./curve-counts.ts";
import type { SharedTable, TableToShare } from "./shared-table.ts";

/** The chart as it may be drawn, or undefined where none of it may. */
export function sharedChart(given: TableToShare, shared: SharedTable): ChartRequest | undefined {
  const { answer } = given;
  const curves = curvesOf(answer);
  if (curves !== undefined) return sharedCurves(given, curves);
  const { chart } = answer;
  const isWhole = shared.whole.size === answer.table.rows.length;
  switch (chart?.draw) {
    case "intervals":
      return {
        ...chart,
        intervals: { ...chart.intervals, rows: shownRows(chart.intervals.rows, given, shared) },
      };
    case "causes":
      return {
        ...chart,
        causes: { ...chart.causes, causes: shownRows(chart.causes.causes, given, shared) },
      };
    case "effects":
      return isWhole ? sharedEffects(given, shared, chart.effects) : undefined;
    case "table":
      return isWhole && isPlain(answer, chart.drawing.as)
        ? sharedBars(given, chart.drawing)
        : undefined;
    default:
      return undefined;
  }
}

/** The rows of a chart whose row of the table, the one of the same name, is shown whole. */
function shownRows<Row extends { readonly label: string; readonly pick?: string }>(
  rows: readonly Row[],
  { answer, label }: TableToShare,
  { whole }: SharedTable,
): Row[] {
  const heading = answer.table.columns[0]?.label ?? "";
  const named = new Set(
    answer.table.rows.flatMap((row, at) => (whole.has(at) ? row.map(({ text }) => text) : [])),
  );
  return rows.flatMap((row) => {
    const { pick: _, ...rest } = row;
    return named.has(row.label) ? [{ ...(rest as Row), label: label(row.label, heading) }] : [];
  });
}

function sharedEffects(
  given: TableToShare,
  shared: SharedTable,
  effects: EffectIntervals,
): ChartRequest {
  const { measure, sides } = effects;
  const words = (text: string): string => given.label(text, "");
  return {
    draw: "effects",
    effects: {
      ...effects,
      measure: words(measure),
      ...(sides === undefined
        ? {}
        : { sides: { below: words(sides.below), above: words(sides.above) } }),
      rows: shownRows(effects.rows, given, shared),
    },
  };
}

function sharedBars({ label }: TableToShare, drawing: TableDrawing): ChartRequest {
  const { across, by } = drawing;
  return {
    draw: "table",
    drawing: {
      ...drawing,
      across: {
        ...across,
        ...(across.names === undefined
          ? {}
          : { names: across.names.map((name) => label(name, across.label)) }),
      },
      groups: drawing.groups.map((group) => label(group, by ?? "")),
      marks: drawing.marks.map(({ pick: _, ...mark }) => mark),
    },
  };
}

/** Bars of counts, not of single eyes; or what was worked out without cases. */
function isPlain({ question }: Answer, as: string): boolean {
  return question === "enough_cases" || (question === "count_by" && as === "bars");
}

/** A curve read on fewer days would look as if all failures came late. */
const fewestDays = 4;

/**
 * Curves read only on the days of the table under them, and only the groups of which the eyes at
 * risk and the eyes failed may be shown on every day drawn: those of the greatest group.
 */
function sharedCurves(given: TableToShare, curves: AttachmentCurves): ChartRequest | undefined {
  const greatest = curves.groups.reduce(
    (best, { total }, at) => (total > (curves.groups[best]?.total ?? -1) ? at : best),
    0,
  );
  const days = curves.atRiskTimes.flatMap((day, column) =>
    isReadable(given, { curves, group: greatest, column }) && day <= curves.until ? [column] : [],
  );
  const groups = curves.groups.flatMap((_, group) =>
    days.every((column) => isReadable(given, { curves, group, column })) ? [group] : [],
  );
  if (days.length < fewestDays || groups.length === 0) return undefined;
  return { draw: "attachment curves", curves: readOn(given, curves, { days, groups }) };
}

function isReadable(
  { name, open }: TableToShare,
  at: { readonly curves: AttachmentCurves; readonly group: number; readonly column: number },
): boolean {
  const { curves, group, column } = at;
  const drawn = curves.groups[group];
  const day = curves.atRiskTimes[column];
  if (drawn === undefined || day === undefined) return false;
  const atRisk = curves.atRisk[group]?.[column] ?? 0;
  const pick = curves.atRiskPicks?.[group]?.[column];
  // On day 0 the curve is drawn at its beginning, where all are attached.
  const hasFailed = day > 0 && drawn.steps.some(({ time }) => time <= day);
  return (
    (atRisk === 0 || open.has(`${name}/${pick}`)) &&
    (!hasFailed || open.has(failedKey(name, drawn.label, day)))
  );
}

function readOn(
  { label, answer }: TableToShare,
  curves: AttachmentCurves,
  { days, groups }: { readonly days: readonly number[]; readonly groups: readonly number[] },
): AttachmentCurves {
  const times = days.map((column) => curves.atRiskTimes[column] ?? 0);
  const heading = answer.table.columns[0]?.label ?? "";
  const { words, level, timeLabel, yFloor } = curves;
  return {
    timeLabel,
    ...(yFloor === undefined ? {} : { yFloor }),
    ...(words === undefined ? {} : { words }),
    ...(level === undefined ? {} : { level }),
    until: times.at(-1) ?? 0,
    atRiskTimes: times,
    atRisk: groups.map((group) => days.map((column) => curves.atRisk[group]?.[column] ?? 0)),
    groups: groups.map((at) => {
      const group = curves.groups[at] as AttachmentCurves["groups"][number];
      return {
        label: label(group.label, heading),
        total: curves.atRisk[at]?.[days[0] ?? 0] ?? 0,
        end: times.at(-1) ?? 0,
        censored: [],
        steps: times.flatMap((time, position) => {
          const step = group.steps.findLast((each) => each.time <= time);
          if (step === undefined || time === 0) return [];
          const { survival, lower, upper } = step;
          return [
            { time, survival, lower, upper, atRisk: curves.atRisk[at]?.[days[position] ?? 0] ?? 0 },
          ];
        }),
      };
    }),
  };
}
