import { table as arqueroTable, type ColumnTable } from "arquero";

/**
 * Tables of checked columns: the only door to arquero.
 *
 * A column's id is ours (`c0`, `c1` …) and the reader's headings are labels only, so that no
 * text of a file becomes a property name. Only arquero calls that compile nothing are used, so
 * the page needs no permission to evaluate code.
 */
export interface Table {
  readonly data: ColumnTable;
  readonly columns: readonly TableColumn[];
  /** Names of `columns`, as workings write them, to their position. */
  readonly positions: ReadonlyMap<string, number>;
}

export interface TableColumn {
  /** `c0`, `c1` … */
  readonly id: string;
  /** As a working writes it: `operation_date`. Unique in its table. */
  readonly name: string;
  /** As a person reads it: "operation date". */
  readonly label: string;
  readonly kind: ColumnKind;
  /** "days", "years", "mm" … */
  readonly unit?: string;
  /** For codes: the codes in the order they should stand in. */
  readonly order?: readonly string[];
  /** One per row; `null` is missing. */
  readonly values: readonly CellValue[];
}

/**
 * `day`: whole days since 1970-01-01. `code`: one of a list. `codes`: several of a list.
 * `text`: free. `acuity`: logMAR, as a number.
 */
export type ColumnKind = "day" | "number" | "truth" | "code" | "codes" | "text" | "acuity";

export type CellValue = number | boolean | string | readonly string[] | null;

/** A table of columns of one length. Throws where lengths differ or a name comes twice. */
export function tableOf(columns: readonly Omit<TableColumn, "id">[]): Table {
  const length = columns[0]?.values.length ?? 0;
  const positions = new Map<string, number>();
  const named = columns.map((column, position) => {
    if (column.values.length !== length)
      throw new Error(`column ${column.name} has another length`);
    if (positions.has(column.name)) throw new Error(`column ${column.name} comes twice`);
    positions.set(column.name, position);
    return { ...column, id: `c${position}` };
  });
  const data = arqueroTable(named.map((column) => [column.id, column.values as CellValue[]]));
  return { data, columns: named, positions };
}

/** The column of that name, or undefined. */
export function columnNamed(table: Table, name: string): TableColumn | undefined {
  const position = table.positions.get(name);
  return position === undefined ? undefined : table.columns[position];
}

/** Number of rows. */
export function rowCount(table: Table): number {
  return table.columns[0]?.values.length ?? 0;
}

/** The given rows, in the given order. */
export function rowsOf(table: Table, rows: ArrayLike<number>): Table {
  const columns = table.columns.map(({ id: _, ...column }) => ({
    ...column,
    values: picked(column.values, rows),
  }));
  return tableOf(columns);
}

function picked(values: readonly CellValue[], rows: ArrayLike<number>): CellValue[] {
  const found = new Array<CellValue>(rows.length);
  for (let i = 0; i < found.length; i++) found[i] = values[rows[i]!] ?? null;
  return found;
}

/** The table with one column more, or with the column of that name replaced. */
export function withColumn(table: Table, column: Omit<TableColumn, "id">): Table {
  return withColumns(table, [column]);
}

/** The same for several columns, of which no two have one name. */
export function withColumns(table: Table, columns: readonly Omit<TableColumn, "id">[]): Table {
  const replacing = new Map(columns.map((column) => [column.name, column]));
  const others = table.columns.map(({ id: _, ...rest }) => replacing.get(rest.name) ?? rest);
  return tableOf([...others, ...columns.filter(({ name }) => !table.positions.has(name))]);
}
