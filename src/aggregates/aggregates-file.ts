/**
 * What a department hands over so that others can pool: counts of eyes, never a row of a patient.
 * The shape of the file is published as `aggregates.schema.json`.
 */
export interface AggregatesFile {
  readonly holdfast_aggregates: typeof aggregatesVersion;
  /** "Holdfast 0.1.0" */
  readonly made_by: string;
  /** The department's name or code, as it gives it. */
  readonly unit: string;
  /** When the repairs were, in words, days coarsened to quarters. */
  readonly period?: string;
  readonly definition: AggregatesDefinition;
  /** Counts from 1 to one less than this are in no file. */
  readonly smallest_count: number;
  /** All eyes first; then for each grouping its groups, which together are all eyes. */
  readonly groups: readonly AggregateGroup[];
}

export const aggregatesVersion = 1;

/** What the counts mean. Only files that agree in all of it can be pooled. */
export interface AggregatesDefinition {
  readonly failure: string;
  readonly oil: string;
  readonly undecided: string;
  /** "12 months" */
  readonly window: string;
  /** The window in days: follow-up ends there. */
  readonly days: number;
  /** Whether eyes were left out by a condition that the department chose itself. */
  readonly eyes: "all" | "chosen";
}

export interface AggregateGroup {
  /** Empty for all eyes. */
  readonly by: readonly { readonly column: string; readonly value: string }[];
  /** `eyes = failed + held + unknown`, the outcome at the window's end. */
  readonly eyes: Count;
  readonly failed: Count;
  /** Known not to have failed by the window's end. */
  readonly held: Count;
  /** Lost before the window's end, or undecided. */
  readonly unknown: Count;
  /** Patients with both eyes among those known; absent where it would tell a small count. */
  readonly pairs?: EyePairs;
  /** When they failed or were last seen; absent where it would tell a small count. */
  readonly times?: TimeTable;
  /** Why they failed; absent where it would tell a small count. */
  readonly causes?: CauseTable;
}

export const quantities = ["eyes", "failed", "held", "unknown"] as const;
export type Quantity = (typeof quantities)[number];

/** A withheld count is 1 or more, and where `most` is given no more than that. */
export type Count = number | { readonly withheld: true; readonly most?: number };

/** Patients of whose two known eyes none, one or both have failed. */
export interface EyePairs {
  readonly none: number;
  readonly one: number;
  readonly both: number;
}

export interface TimeTable {
  /** In order of time, none overlapping; days without a failure or an end may be left out. */
  readonly bands: readonly TimeBand[];
  /** Eyes followed to the window's end without a failure. */
  readonly reached: number;
  /** Where deaths are too few to be told, they stand among those whose follow-up ended. */
  readonly deaths: "apart" | "among ended";
}

/** What happened from one day after the repair to another, both included. */
export interface TimeBand {
  readonly from: number;
  readonly to: number;
  readonly failed: number;
  /** Follow-up that ended before the window's end without a failure, deaths apart. */
  readonly ended: number;
  readonly died: number;
}

export interface CauseTable {
  readonly names: readonly string[];
  /** Each one or several bands of the time table together; one count for each name. */
  readonly bands: readonly {
    readonly from: number;
    readonly to: number;
    readonly failed: readonly number[];
  }[];
}

/** Under this value stand the groups that have fewer eyes than the smallest count, together. */
export const smallerGroups = "smaller groups";

/** The file as it is written, the same wherever it is. */
export function aggregatesText(file: AggregatesFile): string {
  return `${JSON.stringify(file, null, 2)}\n`;
}
