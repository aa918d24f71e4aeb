import { formatDay } from "../calendar-day.ts";
import { rowsByEye } from "../made-columns.ts";
import type { CheckedColumn } from "../read-columns.ts";
import type { CellValue } from "../table.ts";

/** One thing found wrong with one row. */
export interface Finding {
  /** Row of the columns checked, from 0. */
  readonly row: number;
  readonly code: string;
  readonly field: string;
  readonly message: string;
  readonly found: string;
  readonly expected: string;
  readonly remedy?: string;
}

/** Looks over all rows; a column that the file lacks makes no finding. */
export type Check = (cases: CasesToCheck) => readonly Finding[];

/** Columns under check, read by field. */
export class CasesToCheck {
  readonly rowCount: number;
  readonly #columns: ReadonlyMap<string, readonly CellValue[]>;

  constructor(columns: readonly CheckedColumn[]) {
    this.#columns = new Map(columns.map(({ name, values }) => [name, values]));
    this.rowCount = columns[0]?.values.length ?? 0;
  }

  has(field: string): boolean {
    return this.#columns.has(field);
  }

  /** By row; undefined where the file has no such field. */
  values(field: string): readonly CellValue[] | undefined {
    return this.#columns.get(field);
  }

  /** Null where missing and where the file has no such field. */
  value(field: string, row: number): CellValue {
    return this.#columns.get(field)?.[row] ?? null;
  }

  day(field: string, row: number): number | null {
    const value = this.value(field, row);
    return typeof value === "number" ? value : null;
  }

  /** The rows of each eye, where patient and eye are known. */
  rowsByEye(): readonly (readonly number[])[] {
    const [patients, eyes] = [this.#columns.get("patient"), this.#columns.get("eye")];
    return patients && eyes ? rowsByEye(patients, eyes) : [];
  }

  /** Finds in each row on its own. */
  eachRow(find: (row: number) => Finding | undefined): readonly Finding[] {
    const findings: Finding[] = [];
    for (let row = 0; row < this.rowCount; row++) {
      const finding = find(row);
      if (finding !== undefined) findings.push(finding);
    }
    return findings;
  }

  /** Rows of eyes that have a later row, by operation number, else by date. */
  rowsWithLater(): ReadonlySet<number> {
    const withLater = new Set<number>();
    const by = this.has("operation_number") ? "operation_number" : "operation_date";
    for (const rows of this.rowsByEye()) {
      if (rows.length === 1) continue;
      const places = rows.map((row) => Number(this.value(by, row) ?? -Infinity));
      const last = places.reduce((most, place) => Math.max(most, place), -Infinity);
      rows.forEach((row, i) => {
        if (places[i]! < last && places[i]! > -Infinity) withLater.add(row);
      });
    }
    return withLater;
  }
}

/** "redetachment_date 2025-01-04, operation_date 2025-02-01". */
export function describeDays(...days: readonly (readonly [string, number])[]): string {
  return days.map(([field, day]) => `${field} ${formatDay(day)}`).join(", ");
}
