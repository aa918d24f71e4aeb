import { columnNamed } from "../../cases/table.ts";
import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { leftOutOf, PickBook, pickRecord } from "../answering/answered-eyes.ts";
import { comparingPeople, manyLeftOut, pairedEyes } from "../answering/cautions.ts";
import { type ClosingDay, closingDay } from "../answering/closing-day.ts";
import { type Grouping, groupEyes } from "../answering/grouping.ts";
import { landmarksGiven, landmarksParameter } from "../answering/landmarks.ts";
import { openedReason } from "../answering/opened-reason.ts";
import { usualLandmarks } from "../answering/time-words.ts";
import { timesNeeded } from "../answering/timed.ts";
import { toleranceGiven } from "../answering/window.ts";
import { notDrawn } from "../attachment-curve/drawn-groups.ts";
import { byParameter, eyesGiven, eyesParameter, question, type Worked } from "../question.ts";
import { clockFromOilRemoval, followUpCut, manyLost, seenEarly } from "./follow-up-cautions.ts";
import {
  type FollowParts,
  followBrief,
  followDrawing,
  followFigures,
  followSentence,
  followTable,
} from "./follow-up-parts.ts";
import { type FollowOptions, followedGroup } from "./followed-group.ts";

const lossTimes = usualLandmarks.slice(1);

/**
 * How long were they followed? The median of the reverse Kaplan–Meier estimate (Schemper and Smith
 * 1996), failure and death not counted as loss; eyes lost before 3, 6 and 12 months out of those
 * for whom that time had come; and the completeness index: person-time observed over person-time
 * possible up to the closing day (Clark, Altman and De Stavola 2002). Eyes with oil in that the
 * rules do not follow, and eyes seen whose outcome is in doubt, are set aside with their reason.
 */
export const followUp = question(
  {
    name: "follow_up",
    meaning: "how long eyes were followed, how many were lost, and how complete follow-up is",
    asks: "How long were they followed, and how many were lost?",
    example: "follow_up(eyes, by: technique, until: 2025-12-31)",
    parameters: [
      eyesParameter,
      byParameter,
      {
        name: "until",
        meaning: "the closing day: up to here eyes could have been seen",
        takes: "value",
        kinds: ["day"],
        required: false,
        whenLeftOut: "the last day seen in the file",
      },
      landmarksParameter("times before which eyes may be lost", lossTimes),
      {
        name: "tolerance",
        meaning: "how early the visit that reaches a time may come",
        takes: "value",
        kinds: ["duration"],
        required: false,
        whenLeftOut: "0 days",
      },
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const record = eyesGiven(given);
  const untimed = timesNeeded(record, given);
  if (untimed.length > 0) return { problems: untimed };
  const grouped = groupEyes(record, given.rows.get("by"));
  if ("problems" in grouped) return grouped;
  const closing = closingDay(record, given);
  const options: FollowOptions = {
    record,
    closing,
    // Nothing can be lost after the window of the eyes.
    landmarks: landmarksGiven(given, record, {
      until: record.window?.length ?? Number.POSITIVE_INFINITY,
      otherwise: lossTimes,
    }),
    tolerance: toleranceGiven(record, given),
  };
  return answer(grouped.grouping, options, asideOf(record, closing));
}

interface Aside {
  readonly reason: string;
  readonly eyes: readonly number[];
}

/** Eyes whose follow-up cannot be told, and eyes operated after the closing day. */
function asideOf(record: EyeRecord, closing: ClosingDay | undefined): readonly Aside[] {
  const all = Array.from(record.time, (_, eye) => eye);
  const lastSeen = columnNamed(record.table, "last_seen_date")?.values;
  const oil = all.filter((eye) => isUnderOil(record, eye));
  const unclear = all.filter(
    (eye) => record.state[eye] === "unknown" && (lastSeen?.[eye] ?? null) !== null,
  );
  const told = new Set([...oil, ...unclear]);
  const after = all.filter((eye) => !told.has(eye) && (closing?.possible(eye) ?? 0) < 0);
  return [
    { reason: "oil in: not followed by the rule for oil", eyes: oil },
    { reason: "seen, but the outcome is in doubt or not recorded", eyes: unclear },
    { reason: "operated after the closing day", eyes: after },
  ].filter(({ eyes }) => eyes.length > 0);
}

function isUnderOil({ rules, state }: EyeRecord, eye: number): boolean {
  const held = rules?.oil === "followed from removal" || rules?.oil === "censored at insertion";
  return held && state[eye] === "attached under oil";
}

function answer(grouping: Grouping, options: FollowOptions, aside: readonly Aside[]): Worked {
  const { record } = options;
  const picks = new PickBook();
  const without = new Set(aside.flatMap(({ eyes }) => eyes));
  const keep = (eyes: readonly number[]): number[] => eyes.filter((eye) => !without.has(eye));
  const split = grouping.groups.map(({ label, eyes }) => ({ label, eyes: keep(eyes) }));
  const everyone = keep(Array.from(record.time, (_, eye) => eye));
  const parts: FollowParts = {
    record,
    grouping,
    closing: options.closing,
    groups: split.map((group) => followedGroup(group, options)),
    total: followedGroup({ label: "all eyes", eyes: everyone }, options),
  };
  const isSplit = grouping.label !== undefined;
  const leftOut = [
    ...leftOutOf(record),
    ...aside.map((each, i) => openedReason(picks, { key: `aside${i}`, ...each })),
  ];
  return {
    answered: {
      answer: {
        question: "follow_up",
        asks: "How long were they followed, and how many were lost?",
        sentence: followSentence(parts),
        brief: followBrief(parts),
        table: followTable(parts, isSplit ? [...parts.groups, parts.total] : [parts.total], picks),
        chart: { draw: "attachment curves", curves: followDrawing(parts, picks) },
        cautions: [...cautionsOf(parts, leftOut), ...seenEarly(record, options.tolerance)],
        unit: "eyes",
        used: everyone.length,
        leftOut,
        figures: followFigures(parts),
      },
      picks: picks.picks,
      record: pickRecord(record),
    },
  };
}

function cautionsOf(parts: FollowParts, leftOut: Parameters<typeof manyLeftOut>[0]) {
  const { record, total, grouping } = parts;
  const last = total.lost.findLast(({ due }) => due.length > 0);
  const tamponade = columnNamed(record.table, "tamponade")?.values;
  const fromRemoval =
    record.rules?.oil !== "followed from removal" || total.completeness === null
      ? []
      : total.eyes.filter((eye) => tamponade?.[eye] === "silicone oil" && record.event[eye] === 0);
  return [
    ...(last === undefined ? [] : manyLost(last.lost.length, last.due.length, last.text)),
    ...followUpCut(record),
    ...clockFromOilRemoval(fromRemoval.length),
    ...(grouping.label === undefined ? [] : notDrawn(parts.groups)),
    ...comparingPeople(grouping.by),
    ...manyLeftOut(leftOut, total.eyes.length),
    ...pairedEyes(record, "the interval of the median treats eyes as independent"),
  ];
}
