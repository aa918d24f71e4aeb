import { type EyeRecord, isTimed } from "./eye-record.ts";

/** What is known of an eye at a time after its repair. */
export type OutcomeAt = "failed" | "not failed" | "not known";

/**
 * The outcome of one eye at `time` (in the record's unit; absent: at the end of its own
 * follow-up). An eye counts as not failed only where it was followed to that time, less a
 * tolerance for visits that come early; an eye lost before, or undecided, is not known. An eye
 * that failed later had not failed by then. A state read at the last visit has no time: there
 * `time` is not looked at.
 */
export function outcomeAt(
  record: EyeRecord,
  eye: number,
  at: { readonly time?: number; readonly tolerance?: number } = {},
): OutcomeAt {
  const followed = record.time[eye] ?? 0;
  const failed = record.event[eye] === 1;
  if (at.time === undefined || !isTimed(record)) {
    if (failed) return "failed";
    return record.undecided[eye] === 1 ? "not known" : "not failed";
  }
  if (failed && followed <= at.time) return "failed";
  if (record.undecided[eye] === 1 || followed < at.time - (at.tolerance ?? 0)) return "not known";
  return "not failed";
}
