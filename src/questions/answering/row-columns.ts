import { columnNamed, type Table, type TableColumn } from "../../cases/table.ts";
import type { RowColumn, RowColumns } from "../../formula/vocabulary.ts";

/** The columns of a table as a row expression sees them. */
export function rowColumns(table: Table): RowColumns {
  return {
    names: () => table.positions.keys(),
    column: (name) => {
      const column = columnNamed(table, name);
      return column === undefined ? undefined : rowColumn(column);
    },
  };
}

function rowColumn(column: TableColumn): RowColumn {
  return {
    kind: languageKind(column),
    label: column.label,
    ...(column.order === undefined ? {} : { order: column.order }),
    at: (row) => column.values[row] ?? null,
  };
}

function languageKind(column: TableColumn): RowColumn["kind"] {
  switch (column.kind) {
    case "number":
      return column.unit === "days" ? "duration" : "number";
    case "acuity":
      return "number";
    case "code":
    case "text":
      return "text";
    default:
      return column.kind;
  }
}
