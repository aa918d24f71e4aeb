import { fieldNamed } from "./dictionary.ts";
import { type CheckedColumn, columnOf } from "./read-columns.ts";
import type { CellValue } from "./table.ts";

/**
 * The cases' own ids: those of the file where given, else the row's number, first row 1. `isTwice`:
 * whether an id of the file is given to several rows, which are told apart by a number.
 */
export function withCase(
  columns: readonly CheckedColumn[],
  rows: readonly number[],
  isTwice: boolean,
): CheckedColumn[] {
  const given = columns.find(({ name }) => name === "case");
  if (given === undefined) {
    return [
      columnOf(
        fieldNamed("case")!,
        rows.map((row) => String(row)),
      ),
      ...columns,
    ];
  }
  if (!isTwice && !given.values.includes(null)) return [...columns];
  const seen = new Set<CellValue>();
  const values = given.values.map((value, i) => {
    let distinct = value ?? `row ${rows[i]}`;
    for (let n = 2; seen.has(distinct); n++) distinct = `${value ?? `row ${rows[i]}`} (${n})`;
    seen.add(distinct);
    return distinct;
  });
  return columns.map((column) => (column === given ? { ...column, values } : column));
}

/** Quadrants as a third of the clock hours, rounded up, where the file has only clock hours. */
export function withQuadrants(columns: readonly CheckedColumn[]): readonly CheckedColumn[] {
  const hours = columns.find(({ name }) => name === "clock_hours_detached");
  if (hours === undefined || columns.some(({ name }) => name === "quadrants_detached"))
    return columns;
  const quadrants = hours.values.map((value) =>
    typeof value === "number" ? Math.ceil(value / 3) : null,
  );
  return [...columns, columnOf(fieldNamed("quadrants_detached")!, quadrants)];
}

/**
 * The number of each operation among those of its eye, by date, where the file has none. Without
 * a column of patients every row is an eye of its own, and its first operation. A row whose place
 * among several is not known has no number, and neither has one of those in `saidTwice`.
 */
export function withOperationNumber(
  columns: readonly CheckedColumn[],
  saidTwice: ReadonlySet<number> = new Set(),
): readonly CheckedColumn[] {
  const valuesOf = (wanted: string) => columns.find(({ name }) => name === wanted)?.values;
  const [dates, patients, eyes] = [
    valuesOf("operation_date"),
    valuesOf("patient"),
    valuesOf("eye"),
  ];
  if (dates === undefined || valuesOf("operation_number") !== undefined) return columns;
  if (patients !== undefined && eyes === undefined) return columns;
  const numbers =
    patients && eyes
      ? numberByEye(rowsByEye(patients, eyes), dates, saidTwice)
      : dates.map(() => 1);
  return [...columns, columnOf(fieldNamed("operation_number")!, numbers)];
}

type RowsByEye = readonly (readonly number[])[];

/** The eyes found last in a column of patients: numbering and checks ask for the same ones. */
const found = new WeakMap<readonly CellValue[], { eyes: readonly CellValue[]; rows: RowsByEye }>();

/** Rows of each eye of which both patient and side are known. */
export function rowsByEye(patients: readonly CellValue[], eyes: readonly CellValue[]): RowsByEye {
  const last = found.get(patients);
  if (last?.eyes === eyes) return last.rows;
  const rows = findRowsByEye(patients, eyes);
  found.set(patients, { eyes, rows });
  return rows;
}

function findRowsByEye(patients: readonly CellValue[], eyes: readonly CellValue[]): RowsByEye {
  const bySide = new Map<CellValue, Map<CellValue, number[]>>();
  for (let row = 0; row < patients.length; row++) {
    const patient = patients[row];
    const eye = eyes[row];
    if (patient == null || eye == null) continue;
    const byPatient = bySide.get(eye) ?? new Map<CellValue, number[]>();
    if (byPatient.size === 0) bySide.set(eye, byPatient);
    const rows = byPatient.get(patient);
    if (rows === undefined) byPatient.set(patient, [row]);
    else rows.push(row);
  }
  return [...bySide.values()].flatMap((byPatient) => [...byPatient.values()]);
}

function numberByEye(
  byEye: readonly (readonly number[])[],
  dates: readonly CellValue[],
  saidTwice: ReadonlySet<number>,
): readonly CellValue[] {
  const numbers: CellValue[] = dates.map(() => null);
  for (const ofEye of byEye) {
    const rows = saidTwice.size === 0 ? ofEye : ofEye.filter((row) => !saidTwice.has(row));
    if (rows.length > 1 && rows.some((row) => dates[row] === null)) continue;
    const inOrder = [...rows].sort((one, other) => Number(dates[one]) - Number(dates[other]));
    inOrder.forEach((row, i) => {
      numbers[row] = i + 1;
    });
  }
  return numbers;
}
