import type { FieldReader } from "./episode.ts";

/** Silicone oil in one eye, in whole days from its primary repair. */
export interface OilHistory {
  /** Day oil first went in (0: at the primary repair); null where none was used. */
  readonly oilInserted: number | null;
  /** First day after that on which oil came out; null where it did not, or none was used. */
  readonly oilRemoved: number | null;
  /** Whether oil was in the eye when last heard of. */
  readonly oilStillIn: boolean;
}

/**
 * Oil is still in where it went in after it last came out, or where the state recorded last says
 * so, whatever tamponade is written.
 */
export function oilHistory(
  read: FieldReader,
  since: (field: string, row: number) => number | null,
  rows: readonly number[],
): OilHistory {
  const insertions = known(
    rows
      .filter((row) => read("tamponade", row) === "silicone oil")
      .map((row) => since("operation_date", row)),
  );
  const removals = known([
    ...rows.map((row) => since("oil_removed_date", row)),
    ...rows
      .filter((row) => read("technique", row) === "oil removal")
      .map((row) => since("operation_date", row)),
  ]);
  const statedIn = lastStated(read, rows) === "attached under oil";
  if (insertions.length === 0) {
    return { oilInserted: statedIn ? 0 : null, oilRemoved: null, oilStillIn: statedIn };
  }
  const inserted = Math.min(...insertions);
  const after = removals.filter((day) => day >= inserted);
  const lastOut = after.length === 0 ? null : Math.max(...after);
  return {
    oilInserted: inserted,
    oilRemoved: after.length === 0 ? null : Math.min(...after),
    oilStillIn: statedIn || lastOut === null || Math.max(...insertions) > lastOut,
  };
}

function lastStated(read: FieldReader, rows: readonly number[]): unknown {
  const stated = rows
    .map((row) => read("final_status", row) ?? read("status_last_seen", row))
    .filter((status) => status !== null);
  return stated.at(-1);
}

function known(days: readonly (number | null)[]): number[] {
  return days.filter((day) => day !== null);
}
