import type { Answered } from "../../questions/answer.ts";
import { keyOfDescribed, type RowsOnLines } from "./rows-on-lines.ts";

/** The rows behind a key of an answer, each by its key: of one file the first of its lines. */
export type PickedRows = (pick: string) => ReadonlySet<number> | undefined;

/**
 * Answers over different records speak of the same eye by its primary repair's row. Undefined where
 * several files are there and a row of the answer cannot be told from one of another file.
 */
export function pickedRows(answered: Answered, rows?: RowsOnLines): PickedRows | undefined {
  const rowsOf = readRows(answered, rows);
  const areTold = rows === undefined || [...answered.picks.keys()].every((pick) => rowsOf(pick));
  return areTold ? rowsOf : undefined;
}

function readRows({ picks, record }: Answered, onLines: RowsOnLines | undefined): PickedRows {
  const read = new Map<string, ReadonlySet<number>>();
  return (pick) => {
    const before = read.get(pick);
    if (before !== undefined) return before;
    const picked = picks.get(pick);
    if (picked === undefined) return undefined;
    const described = record.describe(picked.rows);
    const keys = described.rows.flatMap(
      (row) => keyOfDescribed(row, described.headings, onLines) ?? [],
    );
    if (keys.length < described.rows.length) return undefined;
    const rows = new Set(keys);
    read.set(pick, rows);
    return rows;
  };
}

export function unionOf(sets: Iterable<ReadonlySet<number>>): ReadonlySet<number> {
  const union = new Set<number>();
  for (const set of sets) for (const row of set) union.add(row);
  return union;
}
