import type { AttachmentCurves, CurveGroup, CurveStep } from "../../charts/attachment-curves.ts";
import { attachmentWords } from "../../charts/attachment-curves.ts";
import type { ChartRequest } from "../../charts/chart-request.ts";
import type { IncidenceCurves } from "../../charts/incidence-curves.ts";
import { percentText } from "../../charts/percent-text.ts";
import { plainText } from "../../charts/plain-text.ts";
import type { AnswerTable } from "../../questions/answer.ts";
import { labels } from "../labels.ts";

/** What the arrow keys walk along: a curve, or the rows of a chart that has no curves. */
export interface Walk {
  readonly points: readonly WalkPoint[];
}

export interface WalkPoint {
  /** The point in words: group, day, share, interval, eyes at risk. */
  readonly words: string;
  /** What opens the eyes behind it. */
  readonly pick?: string;
}

/** The walks of a chart; one without curves is walked along the rows of its table. */
export function walksOf(chart: ChartRequest, table: AnswerTable): readonly Walk[] {
  if (chart.draw === "attachment curves") return attachmentWalks(chart.curves);
  if (chart.draw === "incidence") return incidenceWalks(chart.incidence);
  const points = tablePoints(table);
  return points.length === 0 ? [] : [{ points }];
}

function attachmentWalks(curves: AttachmentCurves): readonly Walk[] {
  return curves.groups
    .filter(({ total }) => total > 0)
    .map((group) => ({ points: attachmentPoints(group, curves) }));
}

function attachmentPoints(group: CurveGroup, curves: AttachmentCurves): readonly WalkPoint[] {
  const { share } = curves.words ?? attachmentWords;
  const first: CurveStep = { time: 0, survival: 1, lower: null, upper: null, atRisk: group.total };
  const steps = group.steps.filter(({ time }) => time <= Math.min(group.end, curves.until));
  const startsAtZero = steps[0]?.time === 0;
  return [...(startsAtZero ? [] : [first]), ...steps].map((step) => {
    const parts = [
      plainText(group.label),
      labels.day(step.time),
      `${percentText(step.survival, 1)} ${share}${limits(step, curves.level)}`,
      labels.atRisk(step.atRisk),
    ];
    return { words: parts.filter(Boolean).join(", "), ...pickOf(step) };
  });
}

function incidenceWalks({ curves, until, level, measure }: IncidenceCurves): readonly Walk[] {
  return curves.map(({ label, steps, end }) => ({
    points: [
      { words: [plainText(label), labels.day(0), labels.beforeFirst].join(", ") },
      ...steps
        .filter(({ time }) => time <= Math.min(end, until))
        .map((step) => {
          const share = `${percentText(step.incidence, 1)} ${plainText(measure)}`;
          const parts = [plainText(label), labels.day(step.time), `${share}${limits(step, level)}`];
          return { words: parts.join(", "), ...pickOf(step) };
        }),
    ],
  }));
}

/** Each row in words: its first text, then every other column with its heading. */
function tablePoints({ columns, rows }: AnswerTable): readonly WalkPoint[] {
  return rows.map((row) => {
    const parts = row.flatMap(({ text }, i) => {
      const { label = "", kind } = columns[i] ?? {};
      if (text === "" || kind === "mark") return [];
      return [i === 0 || label === "" ? text : `${label} ${text}`];
    });
    return { words: parts.join(", "), ...pickOf(row.find(({ pick }) => pick !== undefined)) };
  });
}

function limits(
  { lower, upper }: { readonly lower: number | null; readonly upper: number | null },
  level = 0.95,
): string {
  if (lower === null || upper === null) return "";
  return ` (${labels.interval(level, percentText(lower, 1), percentText(upper, 1))})`;
}

function pickOf(step: { readonly pick?: string } | undefined): { readonly pick?: string } {
  return step?.pick === undefined ? {} : { pick: step.pick };
}
