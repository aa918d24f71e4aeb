import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import { type EyeRecord, isTimed } from "../../outcomes/eye-record.ts";
import { type OutcomeAt, outcomeAt } from "../../outcomes/outcome-at.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { Problem } from "../../problem/problem.ts";
import type { LeftOut } from "../answer.ts";
import { leftOutOf, type PickBook } from "../answering/answered-eyes.ts";
import { closingDay } from "../answering/closing-day.ts";
import { timeIn } from "../answering/time-words.ts";
import { toleranceGiven, windowOf } from "../answering/window.ts";
import { durationGiven, withinParameter } from "../question.ts";

/**
 * The eyes by which people are judged: all of a window that has closed. An eye operated on so late
 * that its window is still open is set aside whether it failed or not: a failure is known at once, a
 * success only at the window's end, so that late eyes would make everyone look worse.
 */
export interface JudgedEyes {
  readonly record: EyeRecord;
  /** Undefined for a state that is read once, at the last visit. */
  readonly window: TimeWindow | undefined;
  /** In the record's unit: visits may come this much early. */
  readonly tolerance: number;
  /** Eyes whose outcome at the window is known. */
  readonly known: readonly number[];
  /** Eyes whose window has closed and whose outcome is not known: never successes. */
  readonly unknown: readonly number[];
  /** Eyes whose window was still open on the last day of the file. */
  readonly tooRecent: readonly number[];
  readonly hasFailed: (eye: number) => boolean;
}

const usualWindow = { amount: 3, unit: "month", days: 91 } as const;

/** How a question about people is told when an outcome counts as known. */
export const judgingParameters: readonly Parameter[] = [
  {
    ...withinParameter,
    byNameOnly: true,
    whenLeftOut: "3 months, or the window of the eyes where it is shorter",
  },
  optional("tolerance", "duration", "how early the visit that ends the window may come", "0 days"),
  optional(
    "until",
    "day",
    "the last day on which an eye could have been seen",
    "the last day in the file",
  ),
];

function optional(name: string, kind: string, meaning: string, whenLeftOut: string): Parameter {
  const takes = "value" as const;
  return { name, meaning, takes, kinds: [kind], required: false, whenLeftOut, byNameOnly: true };
}

/** The judged eyes, or a problem with the window asked for. */
export function judgedEyes(
  record: EyeRecord,
  given: GivenArguments,
): { readonly judged: JudgedEyes } | { readonly problems: readonly Problem[] } {
  const windowed = windowOf(record, given);
  if ("problems" in windowed) return windowed;
  const isAsked = durationGiven(given, "within") !== undefined;
  const window = isAsked ? windowed.window : shortWindow(record, windowed.window);
  const tolerance = toleranceGiven(record, given);
  const open = openWindow(record, given, window === undefined ? 0 : window.length - tolerance);
  const at = { ...(window === undefined ? {} : { time: window.length }), tolerance };
  const all = Array.from(record.time, (_, eye) => eye);
  const outcome = all.map((eye): OutcomeAt => outcomeAt(record, eye, at));
  const closed = all.filter((eye) => !open(eye));
  return {
    judged: {
      record,
      window,
      tolerance,
      known: closed.filter((eye) => outcome[eye] !== "not known"),
      unknown: closed.filter((eye) => outcome[eye] === "not known"),
      tooRecent: all.filter(open),
      hasFailed: (eye) => outcome[eye] === "failed",
    },
  };
}

/** Three months, in which most failures show, unless the eyes are followed for less. */
function shortWindow(record: EyeRecord, own: TimeWindow | undefined): TimeWindow | undefined {
  if (!isTimed(record)) return undefined;
  const length = timeIn(record.timeUnit, { kind: "duration", ...usualWindow });
  return own !== undefined && own.length <= length ? own : { length, text: "3 months" };
}

function openWindow(
  record: EyeRecord,
  given: GivenArguments,
  length: number,
): (eye: number) => boolean {
  const { window: _, ...uncut } = record;
  const closing = length > 0 ? closingDay(uncut, given) : undefined;
  if (closing === undefined) return () => false;
  return (eye) => {
    const possible = closing.possible(eye);
    return possible !== null && possible < length;
  };
}

/** The judged eyes among these. */
export function among(judged: JudgedEyes, eyes: readonly number[]): JudgedEyes {
  const wanted = new Set(eyes);
  const kept = (all: readonly number[]) => all.filter((eye) => wanted.has(eye));
  const { known, unknown, tooRecent } = judged;
  return { ...judged, known: kept(known), unknown: kept(unknown), tooRecent: kept(tooRecent) };
}

/**
 * The record as far as these eyes go, for what is said of oil, doubts and patients: an answer about one
 * person must not tell of the others' eyes.
 */
export function ownRecord({ record, known, unknown, tooRecent }: JudgedEyes): EyeRecord {
  const eyes = [...known, ...unknown, ...tooRecent];
  const own = new Set(eyes);
  const { oil, doubts = [] } = record;
  const kept = (all: readonly number[]) => all.filter((eye) => own.has(eye));
  return {
    ...record,
    patient: eyes.map((eye) => record.patient[eye] ?? null),
    doubts: doubts.filter(({ eye }) => own.has(eye)),
    ...(oil === undefined ? {} : { oil: { eyes: kept(oil.eyes), stillIn: kept(oil.stillIn) } }),
  };
}

/** What a question about people leaves out, each reason leading to its eyes. */
export function notJudged(judged: JudgedEyes, picks: PickBook): LeftOut[] {
  const { record, window, unknown, tooRecent, hasFailed } = judged;
  const failed = tooRecent.filter(hasFailed).length;
  const already = failed === 0 ? "" : `, ${failed} of them failed already`;
  return [
    ...leftOutOf(record),
    ...openable(picks, "unknown", {
      reason: `outcome${window === undefined ? "" : ` at ${window.text}`} not known`,
      eyes: unknown,
    }),
    ...openable(picks, "recent", {
      reason: `operated on too late for ${window?.text ?? "the window"} to have passed${already}`,
      eyes: tooRecent,
    }),
  ];
}

/** A reason with the eyes behind it; nothing where there are none. */
export function openable(
  picks: PickBook,
  key: string,
  { reason, eyes }: { readonly reason: string; readonly eyes: readonly number[] },
): LeftOut[] {
  const pick = picks.add(key, reason, eyes);
  return pick === undefined ? [] : [{ reason, count: eyes.length, pick }];
}

/** " whose outcome at 3 months is known". */
export function knownWords({ window }: JudgedEyes): string {
  return `whose outcome${window === undefined ? "" : ` at ${window.text}`} is known`;
}
