import type { CaseReading } from "../../src/cases/case-reading.ts";
import {
  type CellValue,
  type ColumnKind,
  type TableColumn,
  tableOf,
} from "../../src/cases/table.ts";

const kinds: Readonly<Record<string, ColumnKind>> = {
  operation_date: "day",
  last_seen_date: "day",
  redetachment_date: "day",
  reoperation_date: "day",
  oil_removed_date: "day",
  death_date: "day",
  age: "number",
  operation_number: "number",
  operations_total: "number",
  quadrants_detached: "number",
  clock_hours_detached: "number",
  never_attached: "truth",
  vitreous_haemorrhage: "truth",
  uveitis: "truth",
  choroidal_detachment: "truth",
  failure_cause: "codes",
  break_type: "codes",
};

/** Cases as a reading, from rows written by field; line numbers start below a header. */
export function casesOf(rows: readonly Readonly<Record<string, CellValue>>[]): CaseReading {
  const names = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const columns: Omit<TableColumn, "id">[] = names.map((name) => ({
    name,
    label: name.replaceAll("_", " "),
    kind: kinds[name] ?? "code",
    values: rows.map((row) => row[name] ?? null),
  }));
  return {
    file: { name: "cases.csv", bytes: 0, encoding: "UTF-8", delimiter: "," },
    rowsRead: rows.length,
    cases: tableOf(columns),
    lines: rows.map((_, row) => row + 2),
    leftOut: [],
    matching: { columns: new Map(), values: new Map() },
    columns: [],
    problems: [],
  };
}

/** A primary repair on day 1000 of one right eye, with what is given laid over it. */
export function primary(over: Readonly<Record<string, CellValue>> = {}) {
  return { patient: "P1", eye: "right", operation_date: 1000, technique: "vitrectomy", ...over };
}
