import type { CellValue, TableColumn } from "../../cases/table.ts";
import { dayText } from "../../formula/calendar.ts";

/** A value of the cases as the page shows it. A missing value is a dash: neither zero nor "no". */
export function valueText(column: Pick<TableColumn, "kind">, value: CellValue | undefined): string {
  if (value === null || value === undefined) return "–";
  if (column.kind === "day") return dayText(Number(value));
  if (typeof value === "boolean") return value ? "yes" : "no";
  return Array.isArray(value) ? value.join("; ") : String(value);
}
