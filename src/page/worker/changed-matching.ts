import type { CaseReading } from "../../cases/case-reading.ts";
import type { ColumnMatch, Matching } from "../../cases/matching.ts";
import type { MatchingChange } from "../cases-protocol.ts";

/**
 * What the notebook keeps of how headings and values are matched, with a change made to it. All
 * that was matched is confirmed with `all`; else only what the reader said is kept.
 */
export function changedMatching(
  kept: Matching,
  reading: CaseReading | undefined,
  { all, columns = [], values = [] }: MatchingChange,
): Matching {
  const base = all && reading !== undefined ? confirmed(reading) : kept;
  const headings = (reading?.columns ?? []).map(({ heading }) => heading);
  const matches = new Map(base.columns);
  for (const [heading, match] of columns) {
    if ("field" in match) freeField(matches, match.field, headings);
    matches.set(heading, match);
  }
  const codes = new Map([...base.values].map(([field, known]) => [field, new Map(known)]));
  for (const [field, written, code] of values) {
    codes.set(field, (codes.get(field) ?? new Map<string, string>()).set(written, code));
  }
  return { columns: matches, values: codes };
}

/** How every file was matched; where two know one heading, the first counts. */
function confirmed({ matching, joins = [] }: CaseReading): Matching {
  const columns = new Map(matching.columns);
  for (const join of joins) {
    for (const [heading, match] of join.matching.columns) {
      if (!columns.has(heading)) columns.set(heading, match);
    }
  }
  return { columns, values: matching.values };
}

/** A field is matched once in a file: the heading that had it is matched anew. */
function freeField(
  matches: Map<string, ColumnMatch>,
  field: string,
  headings: readonly string[],
): void {
  for (const heading of headings) {
    const match = matches.get(heading);
    if (match !== undefined && "field" in match && match.field === field) matches.delete(heading);
  }
}
