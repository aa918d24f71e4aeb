import { fieldNamed } from "../dictionary.ts";
import type { ColumnPlan } from "../match-columns.ts";
import { pseudonyms } from "../pseudonyms/patient-codes.ts";
import type { RawTable } from "../raw-table.ts";
import { WrittenColumn } from "../written-column.ts";
import type { Correction } from "./correction.ts";
import { type CorrectedFile, RowFinder } from "./find-row.ts";

/** A file with corrections laid over it. The table it was made from is as it was. */
export interface LaidCorrections {
  readonly table: RawTable;
  /** Those of the file, and one for each field that only corrections fill. */
  readonly plans: readonly ColumnPlan[];
  /** Patients' codes by row; absent where the file has no patients. */
  readonly patients?: readonly (string | null)[];
  /** What became of each correction, in their order. */
  readonly fates: readonly CorrectionFate[];
  /** Positions of columns in which a value was changed. */
  readonly changed: ReadonlySet<number>;
}

export type CorrectionFate =
  | { readonly kind: "applied" }
  | { readonly kind: "row gone" }
  | { readonly kind: "row twice"; readonly rows: number }
  | { readonly kind: "field unknown" }
  | { readonly kind: "value differs"; readonly line: number; readonly found: string };

/**
 * Lays corrections over the text of a file, each over what those before it left. One whose row is
 * gone, or whose value is no longer what it was made for, is not applied.
 */
export function layCorrections(
  file: CorrectedFile,
  corrections: readonly Correction[],
): LaidCorrections {
  const overlay = new Overlay(file);
  const fates = corrections.map((correction) => overlay.lay(correction));
  return { ...overlay.laid(), fates };
}

/** Fields that are made from others where a file lacks them: a column for one value would hide that. */
const made: ReadonlySet<string> = new Set([
  "case",
  "patient",
  "age",
  "operation_number",
  "quadrants_detached",
]);

class Overlay {
  readonly #file: CorrectedFile;
  readonly #finder: RowFinder;
  readonly #columns: WrittenColumn[];
  readonly #plans: ColumnPlan[];
  readonly #patients: (string | null)[] | undefined;
  /** By position and row, the text in place of what the file has. */
  readonly #changes = new Map<number, Map<number, string>>();

  constructor(file: CorrectedFile) {
    this.#file = file;
    this.#finder = new RowFinder(file);
    this.#columns = [...file.table.columns];
    this.#plans = [...file.plans];
    const plan = this.#planOf("patient");
    this.#patients = plan && pseudonyms(this.#columns[plan.position]!, file.codes);
  }

  laid(): Omit<LaidCorrections, "fates"> {
    const { table } = this.#file;
    const unchanged: ReadonlyMap<number, string> = new Map();
    const columns = this.#columns.map((column, i) =>
      column.with(this.#changes.get(i) ?? unchanged),
    );
    const added = this.#plans.slice(this.#file.plans.length).map(({ spec }) => spec!.name);
    return {
      table: { ...table, headings: [...table.headings, ...added], columns },
      plans: this.#plans,
      ...(this.#patients && { patients: this.#patients }),
      changed: new Set(this.#changes.keys()),
    };
  }

  lay(correction: Correction): CorrectionFate {
    const rows = this.#finder.rowsCalled(correction.row);
    if (rows.length === 0) return { kind: "row gone" };
    if (rows.length > 1) return { kind: "row twice", rows: rows.length };
    return this.#layOver(rows[0]!, correction);
  }

  #layOver(row: number, { field, from, to }: Correction): CorrectionFate {
    const plan = this.#planOf(field) ?? (from === "" ? this.#addColumn(field) : undefined);
    if (plan === undefined) return { kind: "field unknown" };
    const isPatient = plan.isField && field === "patient";
    const found = isPatient ? this.#patients![row] : this.#textAt(plan.position, row);
    if ((found ?? "") !== from) {
      return { kind: "value differs", line: this.#file.table.lines[row]!, found: found ?? "" };
    }
    if (isPatient) this.#patients![row] = to === "" ? null : to;
    else this.#setText(plan.position, row, to);
    return { kind: "applied" };
  }

  #setText(position: number, row: number, text: string): void {
    const inColumn = this.#changes.get(position) ?? new Map<number, string>();
    this.#changes.set(position, inColumn.set(row, text));
  }

  #textAt(position: number, row: number): string | undefined {
    return this.#changes.get(position)?.get(row) ?? this.#columns[position]!.at(row);
  }

  #planOf(field: string): ColumnPlan | undefined {
    return this.#plans.find(({ spec }) => spec?.name === field);
  }

  /** A field that the file has no column for. */
  #addColumn(name: string): ColumnPlan | undefined {
    const field = fieldNamed(name);
    if (field === undefined || field.madeFrom !== undefined || made.has(name)) return undefined;
    const position = this.#columns.length;
    this.#columns.push(WrittenColumn.of(this.#file.table.lines.map(() => "")));
    const plan: ColumnPlan = { position, by: "name", spec: field, isField: true };
    this.#plans.push(plan);
    return plan;
  }
}
