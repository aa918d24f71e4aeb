import type { CaseReading } from "../cases/case-reading.ts";
import { type FieldReader, fieldReader } from "./episode.ts";
import type { EyeRecord } from "./eye-record.ts";
import { furtherOperation } from "./further-operation.ts";
import { rowsOfEyes } from "./rows-of-eyes.ts";

/** What was done next after a first failure, in the order in which it is told. */
export type NextStep =
  | { readonly kind: "observed" }
  | { readonly kind: "operation"; readonly technique: string; readonly detail?: string }
  | { readonly kind: "none recorded" };

/** How an eye stands where it was last known. */
export const lastStates = [
  "attached",
  "attached under oil",
  "under observation",
  "detached",
  "unknown",
] as const;
export type LastState = (typeof lastStates)[number];

/** The course of one eye that failed. */
export interface CourseAfterFailure {
  /** Row of the record. */
  readonly eye: number;
  /** Whole days from the primary repair to the first failure. */
  readonly failedDay: number;
  readonly next: NextStep;
  readonly last: LastState;
  /** Further operations for the detachment; removing oil is not one. */
  readonly operations: number;
}

/** What became of an eye that was under observation before any failure was called. */
export const suspicionEndings = ["settled", "operated on", "detached", "not decided"] as const;
export type SuspicionEnding = (typeof suspicionEndings)[number];

export interface Suspicion {
  readonly eye: number;
  readonly ending: SuspicionEnding;
}

export interface Courses {
  /** Eyes that failed, in the order of the record. */
  readonly failed: readonly CourseAfterFailure[];
  readonly suspected: readonly Suspicion[];
}

/** One eye's rows in the case table, in order. */
interface EyeRows {
  readonly read: FieldReader;
  readonly rows: readonly number[];
  /** Those of later operations for the detachment. */
  readonly repairs: readonly number[];
  readonly detail?: ((row: number) => string | null) | undefined;
}

/**
 * The courses of the eyes of a record after their first failure, by the rows of the cases. The
 * record says which eyes failed and when: it is to be followed by redetachment, without a window
 * and with oil counted as attached. `until`: failures later than this many days are not looked at.
 * `detail` reads a column that says more of an operation, such as how a buckle was revised.
 */
export function coursesAfterFailure(
  reading: CaseReading,
  record: EyeRecord,
  options: {
    readonly until?: number;
    readonly detail?: (row: number) => string | null;
  } = {},
): Courses {
  const read = fieldReader(reading.cases);
  const until = options.until ?? Number.POSITIVE_INFINITY;
  const failed: CourseAfterFailure[] = [];
  const suspected: Suspicion[] = [];
  for (const [eye, rows] of rowsOfEyes(reading, record).entries()) {
    const own = { read, rows, repairs: repairsAmong(read, rows), detail: options.detail };
    const suspicion = suspicionOf(own);
    if (suspicion !== null) suspected.push({ eye, ending: suspicion });
    const failedDay = record.time[eye] ?? 0;
    if (record.event[eye] !== 1 || failedDay > until) continue;
    const last = lastStateOf(own);
    const operations = furtherOperations(own);
    failed.push({ eye, failedDay, next: nextStep(own, last), last, operations });
  }
  return { failed, suspected };
}

function repairsAmong(read: FieldReader, rows: readonly number[]): number[] {
  return rows.slice(1).filter((row, position) => {
    const before = read("status_last_seen", rows[position] ?? 0);
    const state = typeof before === "string" ? before : null;
    return furtherOperation(read, row, state) === "for the detachment";
  });
}

function nextStep(eye: EyeRows, last: LastState): NextStep {
  const { read, rows, repairs, detail } = eye;
  const [next] = repairs;
  if (next !== undefined) return operationStep(eye, next);
  const primary = rows[0] ?? 0;
  const written = read("reoperation_technique", primary);
  if (typeof written === "string" && written !== "oil removal") {
    return withDetail(written, detail?.(primary) ?? null);
  }
  if (read("reoperation_date", primary) !== null && written === null) {
    return { kind: "operation", technique: "technique not recorded" };
  }
  const watched = last !== "detached" && last !== "unknown";
  return { kind: watched ? "observed" : "none recorded" };
}

function operationStep({ read, rows, detail }: EyeRows, row: number): NextStep {
  const technique = read("technique", row);
  if (typeof technique !== "string") {
    return { kind: "operation", technique: "technique not recorded" };
  }
  const told = detail?.(row) ?? null;
  if (told !== null || technique !== "buckle revision") return withDetail(technique, told);
  return withDetail(technique, addedElement(read, rows, row));
}

function withDetail(technique: string, detail: string | null): NextStep {
  return { kind: "operation", technique, ...(detail === null ? {} : { detail }) };
}

/** An element on the row of a revision that no earlier operation on the eye has was added then. */
function addedElement(read: FieldReader, rows: readonly number[], row: number): string | null {
  const before = rows.slice(0, rows.indexOf(row)).flatMap((earlier) => elements(read, earlier));
  const added = elements(read, row).filter((element) => !before.includes(element));
  return added.length === 0 ? null : `${added.join(" and ")} element added`;
}

function elements(read: FieldReader, row: number): readonly string[] {
  const value = read("buckle_element", row);
  if (typeof value === "string") return [value];
  return Array.isArray(value) ? value : [];
}

/** Operations after the primary one by rows, or by the recorded total where that is more. */
function furtherOperations({ read, rows, repairs }: EyeRows): number {
  const told = rows.map((row) => {
    const total = read("operations_total", row);
    return typeof total === "number" ? total - 1 : 0;
  });
  return Math.max(repairs.length, isReoperated(read, rows) ? 1 : 0, ...told);
}

/** By the fields of files with one row an eye. */
function isReoperated(read: FieldReader, rows: readonly number[]): boolean {
  const primary = rows[0] ?? 0;
  const technique = read("reoperation_technique", primary);
  if (technique === "oil removal") return false;
  return technique !== null || read("reoperation_date", primary) !== null;
}

/**
 * The state after the last operation. A state recorded before a further repair says nothing of how
 * the eye ended, unless it is recorded as the final one.
 */
function lastStateOf({ read, rows, repairs }: EyeRows): LastState {
  let repairedSince = false;
  for (const row of [...rows].reverse()) {
    const final = stateAt(read, "final_status", row);
    if (final !== null) return final;
    const seen = repairedSince ? null : stateAt(read, "status_last_seen", row);
    if (seen !== null) return seen;
    repairedSince ||= repairs.includes(row);
  }
  return "unknown";
}

function stateAt(read: FieldReader, field: string, row: number): LastState | null {
  const value = read(field, row);
  return lastStates.find((state) => state === value) ?? null;
}

/**
 * An eye under observation (fluid, not called a failure) at the last visit after its primary
 * repair: it settled where it was later attached without a further repair; null where it never was.
 */
function suspicionOf(eye: EyeRows): SuspicionEnding | null {
  const { read, rows, repairs } = eye;
  const at = rows.findIndex((row) => read("status_last_seen", row) === "under observation");
  if (at < 0 || rows.slice(0, at + 1).some((row) => repairs.includes(row))) return null;
  if (read("never_attached", rows[0] ?? 0) === true) return null;
  if (repairs.length > 0 || isReoperated(read, rows)) return "operated on";
  const last = lastStateOf(eye);
  if (last === "attached" || last === "attached under oil") return "settled";
  const detached = rows.some((row) => read("redetachment_date", row) !== null);
  return last === "detached" || detached ? "detached" : "not decided";
}
