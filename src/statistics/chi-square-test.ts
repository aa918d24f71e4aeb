/**
 * Pearson's chi-square test of a table of counts, rows by columns.
 *
 * Expected counts are row total times column total over the grand total; the statistic is the sum
 * of (O - E)^2 / E on (rows - 1)(columns - 1) degrees (Pearson 1900). With Yates' correction, for
 * two by two only, every |O - E| is lowered by 1/2, or to 0 if it is smaller (Yates 1934). Rows and
 * columns with no count at all take no part and no degree.
 */
import { requireCount } from "./argument-checks.ts";
import { chiSquareUpperTail } from "./distributions.ts";

export interface ChiSquareTest {
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
  /** Expected counts, in the shape of the table. */
  readonly expected: readonly (readonly number[])[];
  /** Pearson residuals (O - E) / sqrt(E); 0 where E is 0. */
  readonly residuals: readonly (readonly number[])[];
  /** The smallest expected count among rows and columns that have any; 0 for an empty table. */
  readonly leastExpected: number;
  /** Whether Yates' correction was used. */
  readonly isCorrected: boolean;
}

/** The test; on 0 degrees (a single row or column) its p is 1. Refuses ragged tables. */
export function chiSquareTest(
  table: readonly (readonly number[])[],
  { yates = false }: { yates?: boolean } = {},
): ChiSquareTest {
  const { rows, columns, total } = margins(table);
  const expected = rows.map((row) => columns.map((column) => (row * column) / (total || 1)));
  const positive = expected.flat().filter((e) => e > 0);
  const count = (sums: readonly number[]) => sums.filter((sum) => sum > 0).length;
  const degrees = Math.max(0, count(rows) - 1) * Math.max(0, count(columns) - 1);
  const isCorrected = yates && degrees === 1;
  const each = table.map((row, r) => row.map((o, c) => distance(o, expected[r]![c]!)));
  const correction = isCorrected ? Math.min(0.5, ...each.flat().map(Math.abs)) : 0;
  const statistic = sumOver(each, (d, r, c) => part(Math.abs(d) - correction, expected[r]![c]!));
  return {
    statistic,
    degreesOfFreedom: degrees,
    pValue: chiSquareUpperTail(statistic, degrees),
    expected,
    residuals: each.map((row, r) => row.map((d, c) => residual(d, expected[r]![c]!))),
    leastExpected: positive.length === 0 ? 0 : Math.min(...positive),
    isCorrected,
  };
}

/** Totals by row and column of a table of counts; refuses what is no such table. */
export function margins(table: readonly (readonly number[])[]) {
  const width = table[0]?.length ?? 0;
  const columns = new Array<number>(width).fill(0);
  const rows = table.map((row, r) => {
    if (row.length !== width) {
      throw new RangeError(`row ${r} has ${row.length} counts; expected ${width} as in row 0`);
    }
    row.forEach((count, c) => {
      requireCount(`count[${r}][${c}]`, count);
      columns[c] = columns[c]! + count;
    });
    return row.reduce((a, b) => a + b, 0);
  });
  return { rows, columns, total: rows.reduce((a, b) => a + b, 0) };
}

function distance(observed: number, expected: number): number {
  return expected === 0 ? 0 : observed - expected;
}

function part(difference: number, expected: number): number {
  return expected === 0 ? 0 : difference ** 2 / expected;
}

function residual(difference: number, expected: number): number {
  return expected === 0 ? 0 : difference / Math.sqrt(expected);
}

function sumOver(
  cells: readonly (readonly number[])[],
  value: (cell: number, row: number, column: number) => number,
): number {
  return cells
    .flatMap((row, r) => row.map((cell, c) => value(cell, r, c)))
    .reduce((a, b) => a + b, 0);
}
