import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { type CompletenessIndex, completenessIndex } from "../../statistics/completeness-index.ts";
import type { SurvivalCurve } from "../../statistics/kaplan-meier.ts";
import { reverseKaplanMeier } from "../../statistics/reverse-kaplan-meier.ts";
import { medianSurvival, type SurvivalQuantile } from "../../statistics/survival-quantile.ts";
import type { ClosingDay } from "../answering/closing-day.ts";
import { endedInDeath } from "../answering/deaths.ts";
import type { Group } from "../answering/grouping.ts";

/** How far one group of eyes was followed. */
export interface FollowedGroup {
  readonly label: string;
  readonly eyes: readonly number[];
  readonly failed: readonly number[];
  readonly died: readonly number[];
  /** Of remaining under observation, had nobody failed or died. */
  readonly curve: SurvivalCurve;
  readonly median: SurvivalQuantile;
  readonly lost: readonly LostBy[];
  /** Null where no day of operation is recorded, or no time was possible. */
  readonly completeness: CompletenessIndex | null;
}

/** Eyes lost before a time. `due` eyes are those whose outcome could have been known by then. */
export interface LostBy {
  readonly text: string;
  readonly time: number;
  readonly lost: readonly number[];
  readonly due: readonly number[];
}

export interface FollowOptions {
  readonly record: EyeRecord;
  readonly closing: ClosingDay | undefined;
  readonly landmarks: readonly { readonly time: number; readonly text: string }[];
  /** In the record's unit: visits may come this much early. */
  readonly tolerance: number;
}

export function followedGroup(group: Group, options: FollowOptions): FollowedGroup {
  const { record, landmarks } = options;
  const { eyes, label } = group;
  const time = eyes.map((eye) => record.time[eye] ?? 0);
  const ended = eyes.map((eye) => hasEnded(record, eye) || reachedWindow(record, eye));
  const curve = reverseKaplanMeier({ time, event: ended });
  return {
    label,
    eyes,
    failed: eyes.filter((eye) => record.event[eye] === 1),
    died: eyes.filter((eye) => endedInDeath(record, eye)),
    curve,
    median: medianSurvival(curve),
    lost: landmarks.map((landmark) => lostBy(eyes, landmark, options)),
    completeness: completenessOf(eyes, options),
  };
}

/** Followed to the window's end is followed as long as was asked: no loss there. */
function reachedWindow({ window, time }: EyeRecord, eye: number): boolean {
  return window !== undefined && (time[eye] ?? 0) >= window.length;
}

/** Failure and death end follow-up for a reason: neither is a loss. */
function hasEnded(record: EyeRecord, eye: number): boolean {
  return record.event[eye] === 1 || endedInDeath(record, eye);
}

/** Lost: not failed, not dead, seen last before the time, although the time had come. */
function lostBy(
  eyes: readonly number[],
  landmark: { readonly time: number; readonly text: string },
  { record, closing, tolerance }: FollowOptions,
): LostBy {
  const needed = landmark.time - tolerance;
  const isShort = (eye: number): boolean =>
    !hasEnded(record, eye) && (record.time[eye] ?? 0) < needed;
  const isDue = (eye: number): boolean => {
    const possible = closing?.possible(eye) ?? null;
    return possible === null || possible >= needed;
  };
  const due = eyes.filter((eye) => !isShort(eye) || isDue(eye));
  return { ...landmark, due, lost: due.filter(isShort) };
}

function completenessOf(
  eyes: readonly number[],
  { record, closing }: FollowOptions,
): CompletenessIndex | null {
  if (closing === undefined) return null;
  const dated = eyes.filter((eye) => closing.possible(eye) !== null);
  return completenessIndex(
    dated.map((eye) => record.time[eye] ?? 0),
    dated.map((eye) => hasEnded(record, eye)),
    dated.map((eye) => Math.max(0, closing.possible(eye) ?? 0)),
  );
}
