import type { Episode, FieldReader } from "./episode.ts";
import { furtherOperation } from "./further-operation.ts";
import { type LastVisit, lastVisit } from "./last-visit.ts";
import { type OilHistory, oilHistory } from "./oil-history.ts";

/**
 * The dated facts of one eye, in whole days from its primary repair, read from all of its rows
 * before any definition of failure is applied.
 */
export interface EyeHistory extends LastVisit, OilHistory {
  /** Day of the primary repair, since 1970-01-01. */
  readonly start: number;
  readonly neverAttached: boolean;
  /** First sign that it detached again: a recorded day, else the first further operation. */
  readonly redetached: number | null;
  /** First further operation for the detachment. */
  readonly reoperated: number | null;
  /**
   * Why it cannot be told whether the eye failed, where there is a sign of failure without a day,
   * or something written about the outcome that could not be read; empty where nothing stands
   * against it.
   */
  readonly doubts: readonly string[];
  readonly operations: number;
  readonly died: number | null;
  /** As recorded with the first redetachment, or else with the operation that followed it. */
  readonly causes: readonly string[];
}

/** What the reading of the file adds to the values: which were written and could not be read. */
export interface HistorySource {
  readonly read: FieldReader;
  /** Whether something was written there that could not be read. */
  readonly unread?: (field: string, row: number) => boolean;
  /** Whether the file has a column for the field; absent: it has all. */
  readonly has?: (field: string) => boolean;
}

/** The history of one episode. Days before the primary repair are not believed and not used. */
export function eyeHistory(source: HistorySource | FieldReader, episode: Episode): EyeHistory {
  const {
    read,
    unread = () => false,
    has = () => true,
  } = typeof source === "function" ? { read: source } : source;
  const rows = episode.rows;
  const primary = rows[0] ?? 0;
  const start = numberAt(read, "operation_date", primary) ?? 0;
  const since: Since = (field, row) => {
    const day = numberAt(read, field, row);
    return day === null || day < start ? null : day - start;
  };
  const later = laterOperations(read, rows);
  const written = read("reoperation_technique", primary);
  const reoperated = least([
    ...later.repairs.map((row) => since("operation_date", row)),
    written === "oil removal" ? null : since("reoperation_date", primary),
  ]);
  const firstCourse = rows.filter((row) => !later.repairs.includes(row));
  const recorded = least([
    ...firstCourse.map((row) => since("redetachment_date", row)),
    redetachmentBefore(since, later.repairs[0]),
  ]);
  const redetached = least([recorded, reoperated]);
  const neverAttached = read("never_attached", primary) === true;
  const failed = neverAttached || redetached !== null;
  return {
    start,
    neverAttached,
    redetached,
    reoperated,
    doubts: failed ? [] : doubtsAbout({ read, unread, rows, since, later }),
    operations: operationsOf(read, rows),
    died: least(rows.map((row) => since("death_date", row))),
    causes: firstCauses(read, [...firstCourse, ...later.repairs.slice(0, 1)]),
    ...lastVisit({ read, unread, has, rows, since }),
    ...oilHistory(read, since, rows),
  };
}

/** Days from the primary repair; null where missing or before it. */
export type Since = (field: string, row: number) => number | null;

/** The row of a reoperation often carries the redetachment that led to it, before its own day. */
function redetachmentBefore(since: Since, repair: number | undefined): number | null {
  if (repair === undefined) return null;
  const [redetached, operated] = [
    since("redetachment_date", repair),
    since("operation_date", repair),
  ];
  return redetached !== null && operated !== null && redetached < operated ? redetached : null;
}

interface LaterOperations {
  /** Rows of operations for the detachment. */
  readonly repairs: readonly number[];
  /** Rows of operations of which it cannot be told. */
  readonly doubtful: readonly number[];
}

function laterOperations(read: FieldReader, rows: readonly number[]): LaterOperations {
  const repairs: number[] = [];
  const doubtful: number[] = [];
  rows.slice(1).forEach((row, position) => {
    const before = read("status_last_seen", rows[position] ?? 0);
    const sort = furtherOperation(read, row, typeof before === "string" ? before : null);
    if (sort === "for the detachment") repairs.push(row);
    if (sort === "cannot be told") doubtful.push(row);
  });
  return { repairs, doubtful };
}

/** Signs of a failure that has no day, and what was written of the outcome and not understood. */
function doubtsAbout(about: {
  readonly read: FieldReader;
  readonly unread: (field: string, row: number) => boolean;
  readonly rows: readonly number[];
  readonly since: Since;
  readonly later: LaterOperations;
}): string[] {
  const { read, unread, rows, since, later } = about;
  const primary = rows[0] ?? 0;
  const technique = read("reoperation_technique", primary);
  const total = numberAt(read, "operations_total", primary) ?? 0;
  const signs: [sign: boolean, doubt: string][] = [
    [later.doubtful.length > 0, "a later operation of which it cannot be told what it was for"],
    [
      later.repairs.some((row) => since("operation_date", row) === null),
      "a reoperation without a day",
    ],
    [technique !== null && technique !== "oil removal", "a reoperation without a day"],
    [rows.length === 1 && total > 1, "several operations, of which one is in the file"],
    [rows.some((row) => hasCause(read, row)), "a cause of failure without a failure"],
    ...(["redetachment_date", "reoperation_date", "never_attached"] as const).map(
      (field): [boolean, string] => [
        rows.some((row) => unread(field, row)),
        "an outcome that is written and could not be read",
      ],
    ),
  ];
  return [...new Set(signs.filter(([sign]) => sign).map(([, doubt]) => doubt))];
}

function hasCause(read: FieldReader, row: number): boolean {
  const causes = read("failure_cause", row);
  return Array.isArray(causes) ? causes.length > 0 : typeof causes === "string";
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

export function numberAt(read: FieldReader, field: string, row: number): number | null {
  const value = read(field, row);
  return typeof value === "number" ? value : null;
}

/** The earliest of the days that are known. */
export function least(days: readonly (number | null)[]): number | null {
  const known = days.filter((day) => day !== null);
  return known.length === 0 ? null : Math.min(...known);
}
