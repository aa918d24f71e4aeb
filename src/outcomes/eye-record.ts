import type { Table } from "../cases/table.ts";
import { isDatedEvent, type OutcomeRules } from "./outcome-rules.ts";

/** One row an eye: what happened to it, and the rows of the file that say so. */
export interface EyeRecord {
  /** The columns of the primary repair, and the outcome columns beside them. */
  readonly table: Table;
  /** Follow-up to the failure or to the end of follow-up, in `timeUnit`; 0 or more. */
  readonly time: Float64Array;
  /** 1 where the eye failed at `time`, 0 where follow-up ended without a failure. */
  readonly event: Uint8Array;
  /** 1 where the outcome is not decided, however long the eye was followed. */
  readonly undecided: Uint8Array;
  readonly state: readonly EyeState[];
  /** Why it failed, as recorded; empty where it did not fail or no cause is recorded. */
  readonly causes: readonly (readonly string[])[];
  /** Links two eyes of one person; null where the file does not say. */
  readonly patient: readonly (string | null)[];
  /** Lines of the original file, the primary repair first. */
  readonly lines: readonly (readonly number[])[];
  readonly timeUnit: TimeUnit;
  /** Absent where times and events were read from the file as they stood. */
  readonly rules?: OutcomeRules;
  readonly window?: OutcomeRules["window"];
  readonly leftOut: readonly LeftOutEye[];
  readonly flow: RecordFlow;
  /** Eyes of the record that had silicone oil, and those in which it still was when last heard of. */
  readonly oil?: { readonly eyes: readonly number[]; readonly stillIn: readonly number[] };
  /** Eyes whose outcome is in doubt, with why. */
  readonly doubts?: readonly { readonly eye: number; readonly doubts: readonly string[] }[];
  /** Risk factors that the file has no column for: the strata rest on the others. */
  readonly riskFactorsAbsent?: readonly string[];
  /** Every day in the file on which anyone was seen, since 1970-01-01, of all its eyes; rising. */
  readonly daysSeen?: readonly number[];
  /** The file has no column for the state at the last visit: eyes seen are taken as attached. */
  readonly statePresumed?: boolean;
}

export type TimeUnit = "days" | "weeks" | "months" | "years";

/** How an eye stands at the end of its follow-up. */
export type EyeState =
  | "failed"
  | "attached"
  | "attached under oil"
  | "under observation"
  | "detached"
  | "died"
  | "unknown";

/** An eye, or a row that belongs to none, that could not be followed. */
export interface LeftOutEye {
  readonly reason: string;
  readonly lines: readonly number[];
  /** The question itself asked for it to be left out: by its period or its condition. */
  readonly asked?: boolean;
}

/** The boxes of the flow from rows to eyes: `rowsRead = rowsStopped + rows`. */
export interface RecordFlow {
  readonly rowsRead: number;
  /** Rows that a check stopped, by reason. */
  readonly rowsStopped: readonly { readonly reason: string; readonly lines: readonly number[] }[];
  /** Rows checked and kept. */
  readonly rows: number;
  /** Lines of rows that are kept and about which a query is open; absent: not known. */
  readonly rowsQueried?: readonly number[];
  /** Of these, rows that are the primary repair of an eye in the record. */
  readonly primaryRows: number;
  /** Rows that are a later operation on an eye in the record. */
  readonly laterRows: number;
}

/**
 * Whether failures have a time: not where the definition is a state read at the last visit, to
 * which no curve and no window belongs.
 */
export function isTimed(record: EyeRecord): boolean {
  return record.rules === undefined || isDatedEvent(record.rules.failure);
}

/** Number of eyes in the record. */
export function eyeCount(record: EyeRecord): number {
  return record.time.length;
}
