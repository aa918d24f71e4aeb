import type { CaseReading } from "../../cases/case-reading.ts";
import { rowCount, rowsOf, type Table } from "../../cases/table.ts";
import type { Thing, Value } from "../../formula/value.ts";
import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { stoppedByReason } from "../../outcomes/stopped-rows.ts";
import { thingGiven } from "../question.ts";
import { eyesOfRows } from "./eyes-of-rows.ts";

/** A table made of cases, eyes or another table: its rows, and what became of all the others. */
export interface TableValue {
  readonly table: Table;
  /** For each row, the lines of the original file behind it, first operation first. */
  readonly lines: readonly RowLines[];
  /** What one row was when it came from the cases or the eyes. */
  readonly unit: "cases" | "eyes";
  /** Rows that are in the table no more, by reason, in the order in which they left. */
  readonly leftOut: readonly RowsLeftOut[];
  /** The eyes that its rows are, in the same order, while they are eyes still. */
  readonly eyes?: EyeRecord;
  /** What a reader should know of rows that are still in it. */
  readonly remarks: readonly Remark[];
}

export type RowLines = readonly number[];

export interface RowsLeftOut {
  readonly reason: string;
  readonly lines: readonly RowLines[];
  /** The working asked for it; else something was missing or wrong. */
  readonly asked: boolean;
}

export interface Remark {
  readonly code: string;
  readonly text: string;
}

/** The parameter by which the words over tables take theirs. */
export const tableParameter: Parameter = {
  name: "table",
  meaning: "cases, eyes, or a table made from them",
  takes: "value",
  kinds: ["cases", "eyes", "table"],
  required: true,
};

/** The table that an argument holds, whichever of the three it was given as. */
export function tableGiven(given: GivenArguments, name = "table"): TableValue {
  const thing = thingGiven(given, name);
  if (thing.of === "eyes") return tableOfEyes(thing.content as EyeRecord);
  if (thing.of === "cases") return tableOfCases(thing.content as CaseReading);
  return thing.content as TableValue;
}

/** One row an operation; the rows that a check stopped are left out already. */
export function tableOfCases(reading: CaseReading): TableValue {
  return {
    table: reading.cases,
    lines: reading.lines.map((line) => [line]),
    unit: "cases",
    leftOut: stoppedByReason(reading).map(({ reason, lines }) => ({
      reason,
      lines: lines.map((line) => [line]),
      asked: false,
    })),
    remarks: [],
  };
}

/** One row an eye; the eyes that could not be followed are left out already. */
export function tableOfEyes(record: EyeRecord): TableValue {
  const byReason = new Map<string, { readonly lines: RowLines[]; readonly asked: boolean }>();
  for (const { reason, lines, asked = false } of record.leftOut) {
    const before = byReason.get(reason)?.lines ?? [];
    byReason.set(reason, { lines: [...before, lines], asked });
  }
  return {
    table: record.table,
    lines: record.lines,
    unit: "eyes",
    leftOut: [...byReason].map(([reason, left]) => ({ reason, ...left })),
    eyes: record,
    remarks: [],
  };
}

/** The table as a value of the language: `rows` and `left_out` can be read of it. */
export function tableThing(value: TableValue, parts: readonly [string, number][] = []): Thing {
  const counts: readonly [string, number][] = [
    ["rows", rowCount(value.table)],
    ["left_out", value.leftOut.reduce((sum, { lines }) => sum + lines.length, 0)],
    ...parts,
  ];
  return {
    kind: "thing",
    of: "table",
    parts: new Map(counts.map(([name, number]): [string, Value] => [name, numberValue(number)])),
    content: value,
  };
}

function numberValue(number: number): Value {
  return { kind: "number", number };
}

/** The given rows in the given order, with their lines; `leaving` is added to what was left out. */
export function withRows(
  value: TableValue,
  rows: readonly number[],
  leaving: readonly { readonly reason: string; readonly rows: readonly number[]; asked: boolean }[],
): TableValue {
  const linesOf = (kept: readonly number[]) => kept.map((row) => value.lines[row] ?? []);
  const left = leaving
    .filter((each) => each.rows.length > 0)
    .map(({ reason, rows: gone, asked }) => ({ reason, lines: linesOf(gone), asked }));
  const table = rowsOf(value.table, rows);
  return {
    ...value,
    table,
    ...(value.eyes === undefined ? {} : { eyes: eyesOfRows(value.eyes, rows, { table, leaving }) }),
    lines: linesOf(rows),
    leftOut: [...value.leftOut, ...left],
  };
}

/** 0, 1, 2 … for every row of the table. */
export function everyRow(table: Table): number[] {
  return Array.from({ length: rowCount(table) }, (_, row) => row);
}
