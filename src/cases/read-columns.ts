import type { Problem } from "../problem/problem.ts";
import type { LowVisionTable } from "./acuity.ts";
import type { MatchedColumn } from "./case-reading.ts";
import { fieldNamed } from "./dictionary.ts";
import type { ColumnSpec } from "./field.ts";
import type { ColumnPlan } from "./match-columns.ts";
import type { Matching } from "./matching.ts";
import { isMissing } from "./missing-value.ts";
import { withoutIdentifiers } from "./privacy/identifiers-in-text.ts";
import type { RawTable } from "./raw-table.ts";
import type { CellValue, TableColumn } from "./table.ts";
import type { ColumnReading, DayOrder, Settled } from "./values/column-reading.ts";
import { readColumn } from "./values/read-column.ts";
import type { WrittenColumn } from "./written-column.ts";

/** A column of checked cases, before it has its id. */
export type CheckedColumn = Omit<TableColumn, "id">;

export interface ReadColumns {
  /** In the order of the file, each followed by what was made from it. */
  readonly columns: readonly CheckedColumn[];
  readonly matched: readonly MatchedColumn[];
  /** By position in the file. */
  readonly settled: ReadonlyMap<number, Settled>;
  readonly problems: readonly Problem[];
}

export interface ReadColumnsOptions {
  readonly delimiter: string;
  readonly matching?: Matching | undefined;
  /** Patients' codes by row, in place of what the file holds. */
  readonly patients?: readonly (string | null)[] | undefined;
  readonly lowVision?: LowVisionTable | undefined;
}

/** Reads every column that is planned for, and says what became of each heading. */
export function readColumns(
  table: RawTable,
  plans: readonly ColumnPlan[],
  options: ReadColumnsOptions,
): ReadColumns {
  const columns: CheckedColumn[] = [];
  const problems: (readonly Problem[])[] = [];
  const settled = new Map<number, Settled>();
  const companions = new Map<string, Companion>();
  const readings = readingsOf(table, plans, options);
  const matched = plans.map((plan, i): MatchedColumn => {
    const heading = table.headings[plan.position]!;
    const { position, by, spec } = plan;
    const reading = readings[i];
    if (spec === undefined || reading === undefined) {
      return { heading, position, by, sample: [], missing: 0 };
    }
    const written = table.columns[position]!;
    const isPatient = plan.isField && spec.name === "patient";
    const values = isPatient ? (options.patients ?? []) : reading.values;
    columns.push(columnOf(spec, values));
    if (reading.settled) settled.set(position, reading.settled);
    for (const [name, made] of reading.companions ?? []) {
      companions.set(name, { source: spec.name, values: made });
    }
    problems.push(problemsOf(reading, spec.name, written, table.lines));
    const isId = spec.name === "case" || isPatient;
    const sample = sampleOf(
      isPatient ? values : written.different,
      isId ? String : withoutIdentifiers,
    );
    const missing = values.reduce<number>((count, value) => count + (value === null ? 1 : 0), 0);
    const field = plan.isField ? { field: spec.name } : {};
    return { heading, position, name: spec.name, ...field, by, sample, missing };
  });
  return {
    columns: withCompanions(columns, companions),
    matched,
    settled,
    problems: problems.flat(),
  };
}

/** By plan: its column, read; nothing where it is dropped. */
function readingsOf(
  table: RawTable,
  plans: readonly ColumnPlan[],
  options: ReadColumnsOptions,
): readonly (ColumnReading | undefined)[] {
  const read = (plan: ColumnPlan, dayOrderBeside?: DayOrder) => {
    const context = contextOf(plan, table.headings[plan.position]!, options);
    const more = dayOrderBeside && { dayOrderBeside };
    return (
      plan.spec && readColumn(table.columns[plan.position]!, plan.spec, { ...context, ...more })
    );
  };
  const readings = plans.map((plan) => read(plan));
  const orders = new Set(readings.flatMap((reading) => reading?.settled?.dayOrder ?? []));
  if (orders.size !== 1) return readings;
  const [dayOrder] = orders;
  return readings.map((reading, i) => (isUndecided(reading) ? read(plans[i]!, dayOrder) : reading));
}

function isUndecided(reading: ColumnReading | undefined): boolean {
  return reading?.remarks.some(({ code }) => code === "day-order-undecided") ?? false;
}

/** A column made on reading another. */
interface Companion {
  readonly source: string;
  readonly values: readonly CellValue[];
}

function contextOf(plan: ColumnPlan, heading: string, options: ReadColumnsOptions) {
  const codes = options.matching?.values.get(plan.spec?.name ?? "");
  return {
    heading,
    delimiter: options.delimiter,
    ...(codes && { codes }),
    ...(plan.settled && { settled: plan.settled }),
    ...(options.lowVision && { lowVision: options.lowVision }),
  };
}

/** A column as the table holds it: codes carry their order. */
export function columnOf(spec: ColumnSpec, values: readonly CellValue[]): CheckedColumn {
  const { name, label, kind, unit } = spec;
  const order =
    spec.codes?.map(({ code }) => code) ?? (kind === "code" ? orderOf(values) : undefined);
  return { name, label, kind, ...(unit && { unit }), ...(order && { order }), values };
}

function orderOf(values: readonly CellValue[]): string[] {
  const codes = new Set(values.filter((value) => typeof value === "string"));
  return [...codes].sort((one, other) => (one < other ? -1 : 1));
}

function problemsOf(
  reading: ColumnReading,
  field: string,
  written: WrittenColumn,
  lines: readonly number[],
): Problem[] {
  const remarks = reading.remarks.map((remark): Problem => ({ ...remark, place: { field } }));
  const faults = reading.faults.map(({ row, fault }): Problem => {
    const place = { line: lines[row]!, field };
    return { ...fault, severity: "query", place, found: written.at(row)! };
  });
  return [...remarks, ...faults];
}

/** Values beyond these show nothing new. */
const sampled = 10_000;

/** Up to five different values, as they are shown. */
function sampleOf(values: readonly CellValue[], show: (value: string) => string): string[] {
  const sample = new Set<string>();
  for (const value of values.slice(0, sampled)) {
    if (typeof value !== "string" || sample.has(value) || isMissing(value)) continue;
    sample.add(show(value));
    if (sample.size === 5) break;
  }
  return [...sample];
}

/** Puts what was made on reading after its source; where the file has it too, only into its gaps. */
function withCompanions(
  columns: readonly CheckedColumn[],
  companions: ReadonlyMap<string, Companion>,
): CheckedColumn[] {
  const inFile = new Set(columns.map(({ name }) => name));
  return columns.flatMap((column) => {
    const filling = companions.get(column.name);
    const filled = filling === undefined ? column : fillGaps(column, filling.values);
    const made = [...companions]
      .filter(([name, { source }]) => source === column.name && !inFile.has(name))
      .filter(([name, { values }]) => hasSome(name, values))
      .map(([name, { values }]) => columnOf(fieldNamed(name) ?? ownWritten(name, column), values));
    return [filled, ...made];
  });
}

/** The text beside an acuity of the department's own. */
function ownWritten(name: string, source: CheckedColumn): ColumnSpec {
  return { name, label: `${source.label}, as written`, kind: "text" };
}

/** A field of the file's own is not made up of nothing. */
function hasSome(name: string, values: readonly CellValue[]): boolean {
  return fieldNamed(name)?.madeFrom !== undefined || values.some((value) => value !== null);
}

function fillGaps(column: CheckedColumn, filling: readonly CellValue[]): CheckedColumn {
  return { ...column, values: column.values.map((value, row) => value ?? filling[row] ?? null) };
}
