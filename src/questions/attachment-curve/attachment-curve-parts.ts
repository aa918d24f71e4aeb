import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { restrictedMean } from "../../statistics/restricted-mean.ts";
import { survivalAt } from "../../statistics/survival-at.ts";
import type { SurvivalLimits } from "../../statistics/survival-limits.ts";
import { medianSurvival, survivalQuantile } from "../../statistics/survival-quantile.ts";
import type { AnswerCell, AnswerTable, FigureRecord, Sentence } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { limitsName } from "../answering/curve-of-eyes.ts";
import { estimateCell } from "../answering/estimate-cell.ts";
import { failureWords } from "../answering/failure-words.ts";
import type { Grouping } from "../answering/grouping.ts";
import { timeText } from "../answering/time-words.ts";
import { counted, percent, percentRange } from "../answering/wording.ts";
import type { GroupCurve } from "./curve-of-group.ts";

/** What the sentence, the table and the figures of a curve are all made from. */
export interface CurveParts {
  readonly record: EyeRecord;
  readonly grouping: Grouping;
  readonly groups: readonly GroupCurve[];
  readonly total: GroupCurve;
  /** In the record's unit of time. */
  readonly until: number;
  readonly landmarks: readonly { readonly time: number; readonly text: string }[];
  readonly limits: SurvivalLimits;
}

/** The last landmark's estimate with its interval, and when the failures came. */
export function curveSentence({ record, total, landmarks, limits }: CurveParts): Sentence {
  if (total.eyes.length === 0) return ["No eyes to follow."];
  const last = landmarks.at(-1);
  const at = last === undefined ? null : survivalAt(total.curve, last.time);
  const spared = failureWords(record).spared;
  const opening =
    last === undefined || at === null
      ? `${counted(total.eyes.length, "eye")} followed`
      : `At ${last.text} an estimated ${percent(at.estimate)} of ${counted(total.eyes.length, "eye")} were ${spared} ` +
        `(Kaplan–Meier, 95% ${limitsName(record, total.eyes, limits)} interval ${percentRange(at)})`;
  return [opening, "; ", ...timingOfFailures(record, total)];
}

/** "At 12 months 85.0% of 517 eyes were still attached (95% interval 81.3 to 88.0%); 69 failed." */
export function curveBrief({ record, total, landmarks }: CurveParts): Sentence {
  const last = landmarks.at(-1);
  const at = last === undefined ? null : survivalAt(total.curve, last.time);
  if (last === undefined || at === null) return [];
  const attached = `${percent(at.estimate)} of ${counted(total.eyes.length, "eye")}`;
  return [
    `At ${last.text} ${attached} were ${failureWords(record).spared} ` +
      `(95% interval ${percentRange(at)}); ${total.failed === 0 ? "none" : total.failed} failed.`,
  ];
}

function timingOfFailures(record: EyeRecord, total: GroupCurve): Sentence {
  if (total.failed === 0) return ["none failed."];
  const failed = { text: `${total.failed} failed`, role: "failed" as const };
  if (total.failed < 4) return [failed, "."];
  const half = timeText(record, failedBy(record, total, 0.5) ?? 0);
  const nearly = timeText(record, failedBy(record, total, 0.9) ?? 0);
  return [failed, `, half of them by ${half} and nine in ten by ${nearly}.`];
}

/** The time by which such a share of the failures had come; null under four failures. */
function failedBy(record: EyeRecord, { eyes, failed }: GroupCurve, share: number): number | null {
  if (failed < 4) return null;
  const times = eyes
    .filter((eye) => record.event[eye] === 1)
    .map((eye) => record.time[eye] ?? 0)
    .sort((a, b) => a - b)
    .slice(0, failed);
  return times[Math.ceil(share * times.length) - 1] ?? null;
}

/** Rows: groups. Columns: eyes, failed, each landmark with its interval, the median. */
export function curveTable(
  { record, grouping, landmarks }: CurveParts,
  rows: readonly GroupCurve[],
  picks: PickBook,
): AnswerTable {
  return {
    columns: [
      { label: grouping.label ?? "", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: "failed", kind: "number" },
      ...landmarks.map(({ text }) => ({ label: `${text} (95%)`, kind: "estimate" as const })),
      { label: "median", kind: "number" },
    ],
    rows: rows.map((group, position) => [
      { text: group.label, value: group.label },
      picks.cell(`t${position}`, `${group.label}, all eyes`, group.eyes),
      picks.cell(`t${position}:failed`, `${group.label}, failed`, group.failedAt.flat()),
      ...landmarks.map(({ time }) => landmarkCell(group, time)),
      medianCell(record, group),
    ]),
  };
}

function landmarkCell(group: GroupCurve, time: number): AnswerCell {
  const at = survivalAt(group.curve, time);
  return at === null
    ? { text: "not followed so long", value: null }
    : estimateCell(at.estimate, at);
}

function medianCell(record: EyeRecord, group: GroupCurve): AnswerCell {
  const median = medianSurvival(group.curve).estimate;
  return { text: median === null ? "not reached" : timeText(record, median), value: median };
}

/** The curve's numbers by name: landmarks and median of all eyes, then of each group. */
export function curveFigures(parts: CurveParts): FigureRecord {
  const { grouping, groups, total } = parts;
  const last = lastRead(parts);
  const interval = `Kaplan–Meier ${limitsName(parts.record, total.eyes, parts.limits)}`;
  return {
    ...groupFigures(total, parts),
    headline: `${total.failed} of ${total.eyes.length}`,
    headline_rate: last?.estimate ?? null,
    headline_lower: last?.lower ?? null,
    headline_upper: last?.upper ?? null,
    headline_interval: interval,
    half_failed_by: failedBy(parts.record, total, 0.5),
    nine_tenths_failed_by: failedBy(parts.record, total, 0.9),
    limits: parts.limits,
    interval,
    ...(grouping.label === undefined
      ? {}
      : { groups: groups.map((group) => ({ group: group.label, ...groupFigures(group, parts) })) }),
  };
}

/** The share still attached where the curve was last read, which the sentence leads with. */
function lastRead({ total, landmarks }: CurveParts): ReturnType<typeof survivalAt> {
  const last = landmarks.at(-1);
  return last === undefined ? null : survivalAt(total.curve, last.time);
}

function groupFigures(group: GroupCurve, { landmarks, until }: CurveParts): FigureRecord {
  const median = medianSurvival(group.curve);
  const mean = restrictedMean(group.curve, until);
  return {
    eyes: group.eyes.length,
    failed: group.failed,
    median: median.estimate,
    median_lower: median.lower,
    median_upper: median.upper,
    first_quartile: survivalQuantile(group.curve, 0.25).estimate,
    restricted_mean: mean?.estimate ?? null,
    landmarks: landmarks.map(({ time, text }) => {
      const at = survivalAt(group.curve, time);
      return {
        at: text,
        time,
        attached: at?.estimate ?? null,
        standard_error: at?.standardError ?? null,
        lower: at?.lower ?? null,
        upper: at?.upper ?? null,
        at_risk: at?.atRisk ?? 0,
      };
    }),
  };
}
