import type { AttachmentCurves } from "../../charts/attachment-curves.ts";
import { dayText } from "../../formula/calendar.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { survivalAt } from "../../statistics/survival-at.ts";
import type { AnswerCell, AnswerTable, FigureRecord, Sentence } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import type { ClosingDay } from "../answering/closing-day.ts";
import { noEstimate } from "../answering/estimate-cell.ts";
import { type Grouping, splitOf } from "../answering/grouping.ts";
import { lengthText } from "../answering/time-words.ts";
import { count, counted, figure, percent } from "../answering/wording.ts";
import { curveDrawing } from "../attachment-curve/curve-drawing.ts";
import { drawnGroups } from "../attachment-curve/drawn-groups.ts";
import type { FollowedGroup, LostBy } from "./followed-group.ts";

/** What the sentence, the table and the chart of follow-up are all made from. */
export interface FollowParts {
  readonly record: EyeRecord;
  readonly grouping: Grouping;
  readonly groups: readonly FollowedGroup[];
  readonly total: FollowedGroup;
  readonly closing: ClosingDay | undefined;
}

/** The median, the eyes lost, and the share of the possible follow-up that was observed. */
export function followSentence(parts: FollowParts): Sentence {
  const { total } = parts;
  if (total.eyes.length === 0) return ["No eyes to follow."];
  return [...medianClause(parts), ...lostClause(parts), ...completeClause(parts)];
}

/** "Lost before 12 months: 94 of 392 eyes (24.0%); 80.0% of the possible follow-up observed." */
export function followBrief({ total }: FollowParts): Sentence {
  const last = total.lost.findLast(({ due }) => due.length > 0);
  if (last === undefined) return [];
  const { lost, due, text } = last;
  const share = `${lost.length === 0 ? "none" : count(lost.length)} of ${counted(due.length, "eye")}`;
  const complete =
    total.completeness === null
      ? ""
      : `; ${percent(total.completeness.index)} of the possible follow-up observed`;
  return [`Lost before ${text}: ${share}${shareText(lost, due)}${complete}.`];
}

function medianClause({ record, total }: FollowParts): Sentence {
  const eyes = counted(total.eyes.length, "eye");
  const { estimate, lower, upper } = total.median;
  if (estimate === null) {
    const longest = lengthText(record, longestOf({ record, total }));
    return [`Of ${eyes} the longest follow-up is ${longest}; the median is not reached.`];
  }
  const limits = `${limitText(lower)} to ${upper === null ? "not reached" : lengthText(record, upper)}`;
  return [
    `Of ${eyes} the median follow-up is ${lengthText(record, estimate)} (reverse Kaplan–Meier, 95% log-log interval ${limits}).`,
  ];
}

function longestOf({ record, total }: Pick<FollowParts, "record" | "total">): number {
  return Math.max(0, ...total.eyes.map((eye) => record.time[eye] ?? 0));
}

function limitText(limit: number | null): string {
  return limit === null ? "not reached" : figure(limit);
}

function lostClause({ total }: FollowParts): Sentence {
  const due = total.lost.filter((each) => each.due.length > 0);
  if (due.length === 0) return [];
  if (due.every(({ lost }) => lost.length === 0)) {
    return [` None was lost before ${due.at(-1)?.text}.`];
  }
  const parts = due.map(({ text, lost, due: of }, i) => {
    const pick = lost.length === 0 ? {} : { pick: `all:lost ${text}` };
    const share = `${lost.length === 0 ? "none" : count(lost.length)} of ${count(of.length)}`;
    return { text: `${i === 0 ? "" : ", "}${share} before ${text}${shareText(lost, of)}`, ...pick };
  });
  return [" Lost to follow-up: ", ...parts, "."];
}

function shareText(lost: readonly number[], due: readonly number[]): string {
  return lost.length === 0 ? "" : ` (${percent(lost.length / due.length)})`;
}

function completeClause({ total, closing }: FollowParts): Sentence {
  if (closing === undefined || total.completeness === null) return [];
  const day =
    closing.source === "given"
      ? `up to ${dayText(closing.day)}`
      : `up to ${dayText(closing.day)}, the last day seen in the file`;
  return [
    ` Of the follow-up that was possible ${day}, ${percent(total.completeness.index)} was observed (completeness index).`,
  ];
}

/** Rows: groups. Columns: eyes, how they ended, the median, losses at each time, completeness. */
export function followTable(
  parts: FollowParts,
  rows: readonly FollowedGroup[],
  picks: PickBook,
): AnswerTable {
  const { record, grouping, total } = parts;
  return {
    columns: [
      { label: grouping.label ?? "", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: "failed", kind: "number" },
      { label: "died", kind: "number" },
      { label: "median follow-up (95% log-log)", kind: "estimate" },
      ...total.lost.map(({ text }) => ({ label: `lost before ${text}`, kind: "number" as const })),
      { label: "completeness", kind: "number" },
    ],
    rows: rows.map((group, position) => {
      const key = position === rows.length - 1 ? "all" : `g${position}`;
      const openable = (what: string, eyes: readonly number[]): AnswerCell =>
        picks.cell(`${key}:${what}`, `${group.label}, ${what}`, eyes);
      return [
        { text: group.label, value: group.label },
        openable("all", group.eyes),
        openable("failed", group.failed),
        openable("died", group.died),
        medianCell(record, group),
        ...group.lost.map((lost) => lostCell(lost, { key, label: group.label, picks })),
        completenessCell(group),
      ];
    }),
  };
}

function medianCell(record: EyeRecord, { median }: FollowedGroup): AnswerCell {
  const { estimate, lower, upper } = median;
  if (estimate === null) return { text: "not reached", value: null };
  const text = `${lengthText(record, estimate)} (${limitText(lower)}\u00a0–\u00a0${limitText(upper)})`;
  if (lower === null || upper === null) return { text, value: estimate };
  return { text, value: estimate, limits: { lower, upper } };
}

function lostCell(
  { text, lost, due }: LostBy,
  { key, label, picks }: { key: string; label: string; picks: PickBook },
): AnswerCell {
  if (due.length === 0) return noEstimate;
  const cell = picks.cell(`${key}:lost ${text}`, `${label}, lost before ${text}`, lost);
  return { ...cell, text: `${cell.text} of ${count(due.length)}${shareText(lost, due)}` };
}

function completenessCell({ completeness }: FollowedGroup): AnswerCell {
  if (completeness === null) return noEstimate;
  return { text: percent(completeness.index), value: completeness.index };
}

/** The curves of remaining under observation; each step leads to the eyes last seen there. */
export function followDrawing(parts: FollowParts, picks: PickBook): AttachmentCurves {
  const { record, grouping, total } = parts;
  const groups = grouping.label === undefined ? [total] : drawnGroups(parts.groups);
  const until = Math.max(1, lastDrawn(record, total.eyes));
  const drawn = curveDrawing(
    record,
    groups.map((group) => asCurve(record, group)),
    { until, picks, happened: "last seen" },
  );
  return {
    ...drawn,
    ...splitOf(grouping),
    atRisk: (drawn.atRiskPicks ?? []).map((keys) =>
      keys.map((key) => picks.picks.get(key)?.rows.length ?? 0),
    ),
    words: { share: "still followed, had none failed or died", atRisk: "eyes followed" },
  };
}

/** A curve is drawn as long as ten eyes are followed: one day mistyped would stretch it for all. */
function lastDrawn(record: EyeRecord, eyes: readonly number[]): number {
  const times = eyes.map((eye) => record.time[eye] ?? 0).sort((a, b) => b - a);
  return times[9] ?? times[0] ?? 0;
}

function asCurve(record: EyeRecord, { label, eyes, failed, died, curve }: FollowedGroup) {
  const ended = new Set([...failed, ...died]);
  const seenLast = new Map<number, number[]>();
  for (const eye of eyes.filter((each) => !ended.has(each))) {
    const time = record.time[eye] ?? 0;
    const same = seenLast.get(time);
    if (same === undefined) seenLast.set(time, [eye]);
    else same.push(eye);
  }
  return {
    label,
    eyes,
    failed: failed.length,
    curve,
    failedAt: Array.from(curve.time, (time) => seenLast.get(time) ?? []),
    fewFrom: null,
  };
}

export function followFigures(parts: FollowParts): FigureRecord {
  const { total, grouping, groups, closing } = parts;
  return {
    ...groupFigures(total, parts),
    headline: headlineOf(total),
    longest: longestOf(parts),
    closing_day: closing === undefined ? null : dayText(closing.day),
    ...(grouping.label === undefined
      ? {}
      : { groups: groups.map((each) => ({ group: each.label, ...groupFigures(each, parts) })) }),
  };
}

/** "34 of 430 lost before 12 months": the last time that any eye was due at. */
function headlineOf({ lost, eyes }: FollowedGroup): string {
  const last = lost.findLast(({ due }) => due.length > 0);
  if (last === undefined) return counted(eyes.length, "eye");
  return `${last.lost.length} of ${last.due.length} lost before ${last.text}`;
}

function groupFigures(group: FollowedGroup, { record, total }: FollowParts): FigureRecord {
  const { eyes, failed, died, median, lost, completeness, curve } = group;
  const until = lastDrawn(record, total.eyes);
  const end = Math.min(until, longestOf({ record, total: group }));
  const at = survivalAt(curve, end);
  return {
    eyes: eyes.length,
    failed: failed.length,
    died: died.length,
    median: median.estimate,
    median_lower: median.lower,
    median_upper: median.upper,
    completeness: completeness?.index ?? null,
    observed: completeness?.observed ?? null,
    possible: completeness?.possible ?? null,
    still_followed: {
      at: end,
      share: at?.estimate ?? null,
      lower: at?.lower ?? null,
      upper: at?.upper ?? null,
      eyes: eyes.filter((eye) => (record.time[eye] ?? 0) >= until).length,
    },
    lost: lost.map((each) => ({ before: each.text, lost: each.lost.length, due: each.due.length })),
  };
}
