import { columnNamed, rowCount, type Table, type TableColumn } from "../cases/table.ts";
import type { RowsOfFooting } from "../notebook/footing.ts";
import { digestOf, digitsOf } from "./digest.ts";

/**
 * The rows of operations up to a day (whole days since 1970-01-01), all of them without one: how
 * many, and a digest of their values that does not depend on the order of rows or columns. Rows
 * without a day of operation always count. Missing values and codes of patients, which may be
 * numbers in order of appearance, are no part of the digest.
 */
export function rowsUpTo(cases: Table, lastDay: number | null): RowsOfFooting {
  const days = columnNamed(cases, "operation_date")?.values ?? [];
  const rows = Array.from({ length: rowCount(cases) }, (_, row) => row).filter(
    (row) => lastDay === null || typeof days[row] !== "number" || days[row] <= lastDay,
  );
  return { count: rows.length, lastDay, digest: digestOfRows(cases, rows) };
}

/** The last day of an operation, or null where none is known. */
export function lastOperationDay(cases: Table): number | null {
  const days = columnNamed(cases, "operation_date")?.values ?? [];
  return days.reduce<number | null>(
    (last, day) => (typeof day === "number" && (last === null || day > last) ? day : last),
    null,
  );
}

function digestOfRows(cases: Table, rows: readonly number[]): string {
  const columns = cases.columns
    .filter(({ name }) => name !== "patient")
    .sort((one, other) => (one.name < other.name ? -1 : 1));
  // Two sums of 32 bits, begun differently: the order of the rows does not matter to a sum.
  const sums = [0, 0];
  for (const row of rows) {
    sums[0] = (sums[0]! + digestOfRow(columns, row, undefined)) >>> 0;
    sums[1] = (sums[1]! + digestOfRow(columns, row, 0x9e3779b9)) >>> 0;
  }
  return sums.map(digitsOf).join("");
}

function digestOfRow(columns: readonly TableColumn[], row: number, start?: number): number {
  let digest = digestOf("", start);
  for (const { name, values } of columns) {
    const value = values[row] ?? null;
    if (value !== null) digest = digestOf(`${name}\u0000${value}\u0001`, digest);
  }
  return digest;
}
