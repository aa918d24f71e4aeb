import type { Episode, FieldReader } from "./episode.ts";

/**
 * The dated facts of one eye, in whole days from its primary repair, read from all of its rows
 * before any definition of failure is applied.
 */
export interface EyeHistory {
  /** Day of the primary repair, since 1970-01-01. */
  readonly start: number;
  readonly neverAttached: boolean;
  /** First sign that it detached again: a recorded day, else the first further operation. */
  readonly redetached: number | null;
  /** First further operation for the detachment. */
  readonly reoperated: number | null;
  readonly operations: number;
  /** Last day the eye was seen; 0 where it was never seen after the primary repair. */
  readonly lastSeen: number;
  readonly died: number | null;
  /** At the last visit on the record: a code of `status_last_seen`, null where not recorded. */
  readonly status: string | null;
  /** As recorded with the first redetachment. */
  readonly causes: readonly string[];
  /** Day silicone oil first went in (0: at the primary repair); null where none was used. */
  readonly oilInserted: number | null;
  /** First day after that on which oil came out; null where it is still in or none was used. */
  readonly oilRemoved: number | null;
}

/** The history of one episode. Days before the primary repair are not believed and not used. */
export function eyeHistory(read: FieldReader, episode: Episode): EyeHistory {
  const rows = episode.rows;
  const primary = rows[0] ?? 0;
  const start = numberAt(read, "operation_date", primary) ?? 0;
  const since = (field: string, row: number): number | null => {
    const day = numberAt(read, field, row);
    return day === null || day < start ? null : day - start;
  };
  const further = rows.slice(1).filter((row) => read("technique", row) !== "oil removal");
  const reoperated = least([
    ...further.map((row) => since("operation_date", row)),
    read("reoperation_technique", primary) === "oil removal"
      ? null
      : since("reoperation_date", primary),
  ]);
  const firstCourse = rows.filter((row) => row === primary || !further.includes(row));
  const recorded = least(firstCourse.map((row) => since("redetachment_date", row)));
  return {
    start,
    neverAttached: read("never_attached", primary) === true,
    redetached: least([recorded, reoperated]),
    reoperated,
    operations: operationsOf(read, rows),
    lastSeen: lastSeenOf(since, rows),
    died: least(rows.map((row) => since("death_date", row))),
    status: lastStatus(read, rows),
    causes: firstCauses(read, firstCourse),
    ...oilDays(read, since, rows),
  };
}

type Since = (field: string, row: number) => number | null;

/** Every visit and every operation is a day on which the eye was seen. */
function lastSeenOf(since: Since, rows: readonly number[]): number {
  const fields = ["operation_date", "last_seen_date", "redetachment_date", "reoperation_date"];
  const days = rows.flatMap((row) => fields.map((field) => since(field, row) ?? 0));
  return Math.max(0, ...days);
}

/** The state on the last row that records one; a row's final state goes before its own. */
function lastStatus(read: FieldReader, rows: readonly number[]): string | null {
  for (const row of [...rows].reverse()) {
    const status = read("final_status", row) ?? read("status_last_seen", row);
    if (typeof status === "string") return status;
  }
  return null;
}

function firstCauses(read: FieldReader, rows: readonly number[]): readonly string[] {
  for (const row of rows) {
    const causes = read("failure_cause", row);
    if (Array.isArray(causes) && causes.length > 0) return causes;
    if (typeof causes === "string") return [causes];
  }
  return [];
}

function operationsOf(read: FieldReader, rows: readonly number[]): number {
  const totals = rows.map((row) => numberAt(read, "operations_total", row) ?? 0);
  return Math.max(rows.length, ...totals);
}

function oilDays(
  read: FieldReader,
  since: Since,
  rows: readonly number[],
): { readonly oilInserted: number | null; readonly oilRemoved: number | null } {
  const withOil = rows.filter((row) => read("tamponade", row) === "silicone oil");
  const inserted = least(withOil.map((row) => since("operation_date", row)));
  if (inserted === null) return { oilInserted: null, oilRemoved: null };
  const removals = [
    ...rows.map((row) => since("oil_removed_date", row)),
    ...rows
      .filter((row) => read("technique", row) === "oil removal")
      .map((row) => since("operation_date", row)),
  ];
  const after = removals.filter((day) => day !== null && day >= inserted);
  return { oilInserted: inserted, oilRemoved: least(after) };
}

function numberAt(read: FieldReader, field: string, row: number): number | null {
  const value = read(field, row);
  return typeof value === "number" ? value : null;
}

function least(days: readonly (number | null)[]): number | null {
  const known = days.filter((day) => day !== null);
  return known.length === 0 ? null : Math.min(...known);
}
