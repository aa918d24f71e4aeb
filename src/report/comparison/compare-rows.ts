import { formatDay } from "../../cases/calendar-day.ts";
import type { CaseReading } from "../../cases/case-reading.ts";
import { type CellValue, columnNamed, type Table, type TableColumn } from "../../cases/table.ts";

/** How the rows of one file became those of another, by the id of the case. */
export interface RowsCompared {
  /** False where a file has no ids: nothing is then said of single rows. */
  readonly hasIds: boolean;
  readonly added: readonly string[];
  readonly gone: readonly string[];
  readonly corrected: readonly CorrectedRow[];
  /** Rows in both files, in all columns that both have alike. */
  readonly alike: number;
  /** Ids that stand twice in a file, and so tell no row from another. */
  readonly ambiguous: readonly string[];
  readonly columnsAdded: readonly string[];
  readonly columnsGone: readonly string[];
}

export interface CorrectedRow {
  readonly id: string;
  readonly fields: readonly {
    readonly field: string;
    readonly from: string;
    readonly to: string;
  }[];
}

/** Compares the checked cases of two files; rows left out of either are not among them. */
export function compareRows(before: CaseReading, after: CaseReading): RowsCompared {
  const [earlier, later] = [before.cases, after.cases];
  const rowsBefore = rowsById(before);
  const rowsAfter = rowsById(after);
  const ambiguous = [...new Set([...rowsBefore.twice, ...rowsAfter.twice])];
  const isClear = (id: string): boolean => !ambiguous.includes(id);
  const both = [...rowsBefore.rows].filter(([id]) => isClear(id) && rowsAfter.rows.has(id));
  const corrected = both.flatMap(([id, row]) => {
    const fields = changesOf(
      { table: earlier, row },
      { table: later, row: rowsAfter.rows.get(id) ?? 0 },
    );
    return fields.length === 0 ? [] : [{ id, fields }];
  });
  const missingFrom = (rows: IdRows, other: IdRows): string[] =>
    [...rows.rows.keys()].filter((id) => isClear(id) && !other.rows.has(id));
  return {
    hasIds: rowsBefore.hasIds && rowsAfter.hasIds,
    added: missingFrom(rowsAfter, rowsBefore),
    gone: missingFrom(rowsBefore, rowsAfter),
    corrected,
    alike: both.length - corrected.length,
    ambiguous,
    columnsAdded: columnsMissing(later, earlier),
    columnsGone: columnsMissing(earlier, later),
  };
}

interface IdRows {
  readonly hasIds: boolean;
  readonly rows: ReadonlyMap<string, number>;
  readonly twice: readonly string[];
}

/** Rows by the id that the file gives; reading numbers those of an id that stands twice. */
function rowsById({ cases, columns }: CaseReading): IdRows {
  const hasIds = columns.some(({ name }) => name === "case");
  const ids = hasIds ? (columnNamed(cases, "case")?.values ?? []) : [];
  const rows = new Map<string, number>();
  ids.forEach((id, row) => {
    if (typeof id === "string" && !/^row \d+$/.test(id)) rows.set(id, row);
  });
  const twice = [...rows.keys()].flatMap((id) => {
    const [, first] = /^(.*) \(\d+\)$/.exec(id) ?? [];
    return first !== undefined && rows.has(first) ? [first, id] : [];
  });
  return { hasIds, rows, twice };
}

interface RowOf {
  readonly table: Table;
  readonly row: number;
}

/** People are numbered anew by every reading, so that their numbers say nothing across files. */
function changesOf(before: RowOf, after: RowOf): CorrectedRow["fields"] {
  return before.table.columns.flatMap((column) => {
    if (column.name === "patient") return [];
    const other = columnNamed(after.table, column.name);
    if (other === undefined) return [];
    const from = valueText(column, column.values[before.row] ?? null);
    const to = valueText(other, other.values[after.row] ?? null);
    return from === to ? [] : [{ field: column.label, from, to }];
  });
}

function valueText({ kind }: TableColumn, value: CellValue): string {
  if (value === null) return "–";
  if (kind === "day" && typeof value === "number") return formatDay(value);
  if (typeof value === "boolean") return value ? "yes" : "no";
  return typeof value === "object" ? value.join(", ") : String(value);
}

function columnsMissing(of: Table, other: Table): string[] {
  return of.columns.flatMap(({ name, label }) => (other.positions.has(name) ? [] : [label]));
}
