import type { MatchedTable } from "../open-cases.ts";
import { pseudonyms } from "../pseudonyms/patient-codes.ts";
import type { CellValue } from "../table.ts";
import { readColumn } from "../values/read-column.ts";
import type { WrittenColumn } from "../written-column.ts";
import type { CorrectedRow } from "./correction.ts";

/** The file that rows are looked for in. */
export interface CorrectedFile extends Pick<MatchedTable, "table" | "plans"> {
  readonly name: string;
  readonly delimiter: string;
  /** Patients' codes by identifier. */
  readonly codes: ReadonlyMap<string, string>;
}

/** Finds rows of one file, as the file itself has them, by what corrections call them by. */
export class RowFinder {
  readonly #file: CorrectedFile;
  #byCase: ReadonlyMap<string, readonly number[]> | undefined;
  #byOperation: ReadonlyMap<string, readonly number[]> | undefined;
  #byLine: ReadonlyMap<string, readonly number[]> | undefined;

  constructor(file: CorrectedFile) {
    this.#file = file;
  }

  /** Rows so called: none, one, or several where the file does not tell them apart. */
  rowsCalled(row: CorrectedRow): readonly number[] {
    if (row.by === "case") return this.#cases().get(row.case) ?? [];
    if (row.by === "operation") return this.#operations().get(operationKey(row)) ?? [];
    if (row.file !== this.#file.name) return [];
    this.#byLine ??= rowsBy(this.#file.table.lines.map(String));
    return this.#byLine.get(String(row.line)) ?? [];
  }

  /** What to call a row by: the first way that only it is found by. */
  callRow(row: number): CorrectedRow {
    const { table, name } = this.#file;
    const caseId = this.#written("case")?.at(row) ?? "";
    if (this.#cases().get(caseId)?.length === 1) return { by: "case", case: caseId };
    const operation = this.#operationAt(row);
    if (operation !== undefined && this.rowsCalled(operation).length === 1) return operation;
    return { by: "line", file: name, line: table.lines[row]! };
  }

  #cases(): ReadonlyMap<string, readonly number[]> {
    this.#byCase ??= rowsBy(this.#written("case")?.map((id) => id) ?? []);
    return this.#byCase;
  }

  #operations(): ReadonlyMap<string, readonly number[]> {
    this.#byOperation ??= rowsBy(
      this.#file.table.lines.map((_, row) => {
        const operation = this.#operationAt(row);
        return operation === undefined ? "" : operationKey(operation);
      }),
    );
    return this.#byOperation;
  }

  #identity:
    | readonly [
        patients: readonly CellValue[],
        eyes: readonly CellValue[],
        days: readonly CellValue[],
      ]
    | undefined;

  #operationAt(row: number): Extract<CorrectedRow, { by: "operation" }> | undefined {
    this.#identity ??= [
      pseudonyms(this.#written("patient"), this.#file.codes),
      this.#values("eye"),
      this.#values("operation_date"),
    ];
    const [patient, eye, operationDay] = this.#identity.map((values) => values[row]);
    const isWhole = typeof patient === "string" && typeof eye === "string";
    if (!isWhole || typeof operationDay !== "number") return undefined;
    return { by: "operation", patient, eye, operationDay };
  }

  #written(field: string): WrittenColumn | undefined {
    const { plans, table } = this.#file;
    const plan = plans.find(({ spec, isField }) => isField && spec?.name === field);
    return plan && table.columns[plan.position];
  }

  #values(field: string): readonly CellValue[] {
    const { plans, table, delimiter } = this.#file;
    const plan = plans.find(({ spec, isField }) => isField && spec?.name === field);
    if (plan?.spec === undefined) return [];
    const heading = table.headings[plan.position]!;
    const context = { heading, delimiter, ...(plan.settled && { settled: plan.settled }) };
    return readColumn(table.columns[plan.position]!, plan.spec, context).values;
  }
}

function operationKey(row: Extract<CorrectedRow, { by: "operation" }>): string {
  return `${row.operationDay} ${row.eye} ${row.patient}`;
}

/** Rows by key; an empty key is none. */
function rowsBy(keys: readonly string[]): ReadonlyMap<string, readonly number[]> {
  const rows = new Map<string, number[]>();
  keys.forEach((key, row) => {
    if (key === "") return;
    const same = rows.get(key);
    if (same === undefined) rows.set(key, [row]);
    else same.push(row);
  });
  return rows;
}
