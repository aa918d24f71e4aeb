import type { CellValue } from "../table.ts";
import type { UncheckedCases } from "../unchecked-cases.ts";

/** The values of a column by row; null everywhere where there is none. */
export function valuesIn(cases: UncheckedCases, name: string): (row: number) => CellValue {
  const values = cases.columns.find((column) => column.name === name)?.values;
  return (row) => values?.[row] ?? null;
}

/** Rows by key, in their order; rows without a key are left out. */
export function rowsByKey(
  cases: UncheckedCases,
  keyOf: (row: number) => string | null,
): ReadonlyMap<string, readonly number[]> {
  const rows = new Map<string, number[]>();
  for (const row of cases.rows.lines.keys()) {
    const key = keyOf(row);
    if (key === null) continue;
    const same = rows.get(key);
    if (same === undefined) rows.set(key, [row]);
    else same.push(row);
  }
  return rows;
}

/** A key of several fields, null where one of them is missing. */
export function keyOf(
  cases: UncheckedCases,
  fields: readonly string[],
): (row: number) => string | null {
  const readers = fields.map((field) => valuesIn(cases, field));
  return (row) => {
    const values = readers.map((read) => read(row));
    return values.includes(null) ? null : JSON.stringify(values);
  };
}
