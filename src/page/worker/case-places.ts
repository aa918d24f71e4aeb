import type { CaseReading } from "../../cases/case-reading.ts";
import type { CorrectedRow } from "../../cases/corrections/correction.ts";
import { columnNamed } from "../../cases/table.ts";
import type { RowAt } from "../cases-protocol.ts";

/** Where the rows of a reading stand in their files, and which values are queried or corrected. */
export class CasePlaces {
  readonly #reading: CaseReading;
  readonly #rows = new Map<string, number>();
  #called: ReadonlyMap<string, number> | undefined;
  #queried: ReadonlyMap<number, ReadonlySet<string>> | undefined;
  #corrected: ReadonlyMap<number, ReadonlySet<string>> | undefined;

  constructor(reading: CaseReading) {
    this.#reading = reading;
    reading.lines.forEach((line, row) => {
      this.#rows.set(keyOf({ file: this.fileOf(row), line }), row);
    });
  }

  /** Name of the file that a row first stood in. */
  fileOf(row: number): string {
    const { files, fileOf, file } = this.#reading;
    return files?.[fileOf?.[row] ?? 0]?.name ?? file.name;
  }

  atOf(row: number): Required<RowAt> {
    return { file: this.fileOf(row), line: this.#reading.lines[row]! };
  }

  /** The row that begins there; undefined where no case does. */
  rowAt({ file = this.#reading.file.name, line }: RowAt): number | undefined {
    return this.#rows.get(keyOf({ file, line }));
  }

  /** The row that a correction calls so, as the cases are now. */
  rowCalled(row: CorrectedRow): number | undefined {
    if (row.by === "line") return this.rowAt(row);
    this.#called ??= this.#callRows();
    return this.#called.get(calledBy(row));
  }

  /** Names of the columns of a row that a query is about. */
  queriedIn(row: number): ReadonlySet<string> {
    this.#queried ??= gathered(this.#reading.problems, ({ place: { file, line, field } }) => [
      line === undefined ? undefined : this.rowAt({ ...(file && { file }), line }),
      field,
    ]);
    return this.#queried.get(row) ?? none;
  }

  /** Names of the columns of a row in which a correction stands. */
  correctedIn(row: number): ReadonlySet<string> {
    const { corrections } = this.#reading;
    this.#corrected ??= gathered(corrections?.applied ?? [], (correction) => [
      this.rowCalled(correction.row),
      correction.field,
    ]);
    return this.#corrected.get(row) ?? none;
  }

  #callRows(): ReadonlyMap<string, number> {
    const { cases } = this.#reading;
    const [ids, patients, eyes, days] = ["case", "patient", "eye", "operation_date"].map(
      (name) => columnNamed(cases, name)?.values,
    );
    const called = new Map<string, number>();
    this.#reading.lines.forEach((_, row) => {
      called.set(`case ${ids?.[row]}`, row);
      called.set(`${days?.[row]} ${eyes?.[row]} ${patients?.[row]}`, row);
    });
    return called;
  }
}

const none: ReadonlySet<string> = new Set();
const places = new WeakMap<CaseReading, CasePlaces>();

/** The places of a reading, worked out once. */
export function placesIn(reading: CaseReading): CasePlaces {
  const known = places.get(reading) ?? new CasePlaces(reading);
  places.set(reading, known);
  return known;
}

function keyOf({ file, line }: RowAt): string {
  return `${line} ${file}`;
}

function calledBy(row: Exclude<CorrectedRow, { by: "line" }>): string {
  return row.by === "case" ? `case ${row.case}` : `${row.operationDay} ${row.eye} ${row.patient}`;
}

function gathered<Item>(
  items: readonly Item[],
  placeOf: (item: Item) => readonly [row: number | undefined, field: string | undefined],
): ReadonlyMap<number, ReadonlySet<string>> {
  const fields = new Map<number, Set<string>>();
  for (const item of items) {
    const [row, field] = placeOf(item);
    if (row === undefined || field === undefined) continue;
    const known = fields.get(row);
    if (known === undefined) fields.set(row, new Set([field]));
    else known.add(field);
  }
  return fields;
}
