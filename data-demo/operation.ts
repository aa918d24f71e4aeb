import type { EyeBefore } from "./eye-before.ts";
import type { Cause } from "./failure-cause.ts";
import type { Team } from "./operating-team.ts";
import type { Patient } from "./patient.ts";
import type { Technique, TechniqueDetails } from "./technique-details.ts";

/** One operation on one eye: one row of the file. Days are since 1970-01-01. */
export interface Operation {
  readonly patient: Patient;
  readonly day: number;
  /** For this eye; 1 is the primary repair. Taking oil out counts. */
  readonly number: number;
  readonly team: Team;
  readonly eye: EyeBefore;
  readonly technique: Technique;
  readonly details: TechniqueDetails;
}

export type Status =
  | "attached"
  | "attached under oil"
  | "under observation"
  | "detached"
  | "unknown";

/**
 * How an operation turned out, up to the eye's next operation: `lastSeen` is then that day. A
 * redetachment after planned oil removal stands in the row of the removal.
 */
export interface Outcome {
  readonly lastSeen: number;
  readonly status: Status;
  readonly redetached: number | null;
  readonly neverAttached: boolean;
  readonly causes: readonly Cause[];
  readonly oilRemoved: number | null;
  readonly death: number | null;
  readonly acuity: { readonly logMar: number; readonly day: number } | null;
  readonly complications: readonly string[];
}

export interface FollowedOperation extends Operation {
  readonly outcome: Outcome;
}
