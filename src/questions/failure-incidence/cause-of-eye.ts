import type { GivenArguments, RowColumn } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { Problem } from "../../problem/problem.ts";
import { endedInDeath } from "../answering/deaths.ts";
import { rowColumns } from "../answering/row-columns.ts";
import { figure } from "../answering/wording.ts";

export const causeNotRecorded = "cause not recorded";
export const death = "death";
export const otherCauses = "other causes";

/** More causes than this apart, and the least frequent are gathered. */
const mostCauses = 6;

/** The causes that compete, and which of them (from 1, 0: none) ended each eye's follow-up. */
export interface CompetingCauses {
  readonly labels: readonly string[];
  /** By eye of the record. */
  readonly codes: readonly number[];
  /** Follow-up cut at the window, by eye of the record. */
  readonly time: readonly number[];
  /** The causes that are failures: all but death. */
  readonly failures: number;
}

/** How causes are told apart: each by itself, one against the others, or all failures as one. */
export type Apart =
  | { readonly kind: "each" }
  | { readonly kind: "one"; readonly cause: string }
  | { readonly kind: "all" };

/** The cause of a failed eye in words, from an expression or as recorded. */
export function causeReader(
  record: EyeRecord,
  given: GivenArguments,
):
  | { readonly causesOf: (eye: number) => readonly string[]; readonly by: readonly string[] }
  | { readonly problems: readonly Problem[] } {
  const expression = given.rows.get("cause");
  if (expression === undefined) return { causesOf: (eye) => record.causes[eye] ?? [], by: [] };
  const bound = expression.over(rowColumns(record.table));
  if (!bound.ok) return { problems: bound.problems };
  return { causesOf: (eye) => textsOf(bound.column.at(eye)), by: bound.names };
}

function textsOf(value: ReturnType<RowColumn["at"]>): readonly string[] {
  if (value === null) return [];
  if (typeof value === "number") return [figure(value, 2)];
  if (typeof value === "boolean") return [value ? "yes" : "no"];
  return typeof value === "string" ? [value] : value;
}

/** Every recorded cause among the failures up to `until`. */
export function recordedCauses(
  record: EyeRecord,
  causesOf: (eye: number) => readonly string[],
  until: number,
): string[] {
  const failed = Array.from(record.time, (_, eye) => eye).filter((eye) =>
    failedBy(record, eye, until),
  );
  return [...new Set(failed.flatMap((eye) => causesOf(eye)))].sort();
}

function failedBy(record: EyeRecord, eye: number, until: number): boolean {
  return record.event[eye] === 1 && (record.time[eye] ?? 0) <= until;
}

/**
 * Which cause ended each eye's follow-up by `until`. An eye with several causes counts once, under
 * all of them joined ("a and b"), or under the one asked for; the least frequent of many causes are
 * gathered as other causes; death competes with all of them.
 */
export function competingCauses(
  record: EyeRecord,
  options: {
    readonly until: number;
    readonly causesOf: (eye: number) => readonly string[];
    readonly apart: Apart;
  },
): CompetingCauses {
  const { until, causesOf, apart } = options;
  const names = Array.from(record.time, (_, eye): string | null => {
    if (failedBy(record, eye, until)) return nameOf(causesOf(eye), apart);
    const time = record.time[eye] ?? 0;
    return endedInDeath(record, eye) && time <= until ? death : null;
  });
  const failures = labelsOf(names, apart);
  const labels = names.includes(death) ? [...failures, death] : failures;
  const other = labels.indexOf(otherCauses) + 1;
  return {
    labels,
    codes: names.map((name) => (name === null ? 0 : labels.indexOf(name) + 1 || other)),
    time: Array.from(record.time, (time) => Math.min(time, until)),
    failures: failures.length,
  };
}

function nameOf(causes: readonly string[], apart: Apart): string {
  if (apart.kind === "all") return "failure";
  if (apart.kind === "one") return causes.includes(apart.cause) ? apart.cause : otherCauses;
  return causes.length === 0 ? causeNotRecorded : [...new Set(causes)].sort().join(" and ");
}

/** Most frequent first, what is not recorded last. */
function labelsOf(names: readonly (string | null)[], apart: Apart): string[] {
  const counts = new Map<string, number>();
  for (const name of names) {
    if (name !== null && name !== death) counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  if (apart.kind === "all") return ["failure"];
  if (apart.kind === "one") {
    return counts.has(otherCauses) ? [apart.cause, otherCauses] : [apart.cause];
  }
  const silent = counts.delete(causeNotRecorded);
  const ranked = [...counts].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));
  const named = ranked.map(([name]) => name);
  const kept = named.length > mostCauses ? [...named.slice(0, mostCauses - 1), otherCauses] : named;
  if (kept.length === 0 && !silent) return ["failure"];
  return silent ? [...kept, causeNotRecorded] : kept;
}
