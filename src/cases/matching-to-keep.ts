import type { ColumnPlan } from "./match-columns.ts";
import type { ColumnMatch, Matching } from "./matching.ts";
import type { Settled } from "./values/column-reading.ts";

export interface MatchedFile {
  readonly headings: readonly string[];
  readonly plans: readonly ColumnPlan[];
  /** How columns were settled, by position. */
  readonly settled: ReadonlyMap<number, Settled>;
}

/**
 * How this file was matched, for the notebook: every heading of the file, how its dates and
 * acuities were settled, and whatever the notebook said before of headings that are not in it.
 */
export function matchingToKeep(
  { headings, plans, settled }: MatchedFile,
  before: Matching | undefined,
): Matching {
  const columns = new Map<string, ColumnMatch>();
  for (const plan of plans) {
    columns.set(headings[plan.position]!, matchOf(plan, settled.get(plan.position)));
  }
  for (const [heading, match] of before?.columns ?? []) {
    if (!columns.has(heading)) columns.set(heading, match);
  }
  return { columns, values: before?.values ?? new Map() };
}

function matchOf(plan: ColumnPlan, settled: Settled | undefined): ColumnMatch {
  const { spec } = plan;
  if (spec === undefined) return { leave: true };
  if (plan.isField) return { field: spec.name, ...plan.settled, ...settled };
  const { name, kind, unit } = spec;
  return { name, kind, ...(unit && { unit }) };
}
