/** Which rows of two tables belong together. */
export interface RowMatching {
  /** In the order of the first table, then of the other. */
  readonly pairs: readonly (readonly [first: number, other: number])[];
  /** Rows of either table without a match, those with a missing key among them. */
  readonly unmatched: readonly number[];
  readonly unmatchedOther: readonly number[];
  /** Rows of the first table that have several matches. */
  readonly repeated: readonly number[];
}

/** The rows with the same key; a null key matches none. `twice`: a key that repeats in both. */
export function matchRows(
  first: readonly (string | null)[],
  other: readonly (string | null)[],
): RowMatching | { readonly twice: string } {
  const [ours, theirs] = [rowsByKey(first), rowsByKey(other)];
  for (const [key, rows] of ours) {
    if (rows.length > 1 && (theirs.get(key)?.length ?? 0) > 1) return { twice: key };
  }
  const matchesOf = (row: number) => theirs.get(first[row] ?? "") ?? [];
  const rows = first.map((_, row) => row);
  return {
    pairs: rows.flatMap((row) => matchesOf(row).map((match) => [row, match] as const)),
    unmatched: rows.filter((row) => matchesOf(row).length === 0),
    unmatchedOther: other.flatMap((key, row) => (key === null || !ours.has(key) ? [row] : [])),
    repeated: rows.filter((row) => matchesOf(row).length > 1),
  };
}

function rowsByKey(keys: readonly (string | null)[]): ReadonlyMap<string, readonly number[]> {
  const byKey = new Map<string, number[]>();
  keys.forEach((key, row) => {
    if (key === null) return;
    const rows = byKey.get(key);
    if (rows === undefined) byKey.set(key, [row]);
    else rows.push(row);
  });
  return byKey;
}
