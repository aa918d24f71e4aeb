import type { Answered } from "../../questions/answer.ts";

/** The rows behind a key of an answer, each by the first of its lines in the file of cases. */
export type PickedRows = (pick: string) => ReadonlySet<number> | undefined;

/** Answers over different records speak of the same eye by its primary repair's line. */
export function pickedRows({ picks, record }: Answered): PickedRows {
  const read = new Map<string, ReadonlySet<number>>();
  return (pick) => {
    const before = read.get(pick);
    if (before !== undefined) return before;
    const picked = picks.get(pick);
    if (picked === undefined) return undefined;
    const lines = record.describe(picked.rows).rows.map((row) => row.lines[0] ?? 0);
    const rows = new Set(lines);
    read.set(pick, rows);
    return rows;
  };
}

export function unionOf(sets: Iterable<ReadonlySet<number>>): ReadonlySet<number> {
  const union = new Set<number>();
  for (const set of sets) for (const row of set) union.add(row);
  return union;
}
