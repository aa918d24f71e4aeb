import type { Severity } from "../../problem/problem.ts";
import type { LowVisionTable } from "../acuity.ts";
import type { ColumnMatch } from "../matching.ts";
import type { CellValue } from "../table.ts";
import type { WrittenColumn } from "../written-column.ts";

/** One written value, read. A fault goes with a value that is missing because of it. */
export interface Reading {
  readonly value: CellValue;
  readonly fault?: Fault;
}

/** What is wrong with a value, without its place. */
export interface Fault {
  readonly code: string;
  readonly message: string;
  readonly expected?: string;
  readonly remedy?: string;
}

/** A whole column, read. */
export interface ColumnReading {
  readonly values: readonly CellValue[];
  /** In the order of rows. */
  readonly faults: readonly RowFault[];
  /** What is to be said of the column as a whole. */
  readonly remarks: readonly Remark[];
  /** How the column was settled, to be kept with the matching. */
  readonly settled?: Settled;
  /** Further columns made on the way: name to values. */
  readonly companions?: ReadonlyMap<string, readonly CellValue[]>;
}

export interface RowFault {
  /** Row, counted from 0. */
  readonly row: number;
  readonly fault: Fault;
}

export interface Remark extends Fault {
  readonly severity: Severity;
  readonly found?: string;
}

export type Settled = Omit<Extract<ColumnMatch, { field: string }>, "field">;

export type DayOrder = NonNullable<Settled["dayOrder"]>;

/** What is known of a column besides its values. */
export interface ColumnContext {
  readonly heading: string;
  /** The file's delimiter: a semicolon speaks for decimal commas. */
  readonly delimiter: string;
  /** By the notebook: value as written to code. */
  readonly codes?: ReadonlyMap<string, string>;
  readonly settled?: Settled;
  /** The order in which all other columns of days write them, where they agree. */
  readonly dayOrderBeside?: DayOrder;
  readonly lowVision?: LowVisionTable;
}

/** Reads every value, each different one once. */
export function readEach(
  written: WrittenColumn,
  read: (written: string) => Reading,
): Pick<ColumnReading, "values" | "faults"> {
  const readings = written.different.map(read);
  const values = written.spread(readings.map(({ value }) => value));
  if (readings.every(({ fault }) => fault === undefined)) return { values, faults: [] };
  const faults = written
    .spread(readings)
    .flatMap(({ fault }, row): RowFault | [] => (fault === undefined ? [] : { row, fault }));
  return { values, faults };
}

export function missingBecause(fault: Fault): Reading {
  return { value: null, fault };
}
