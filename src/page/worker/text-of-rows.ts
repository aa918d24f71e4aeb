import type { CaseReading } from "../../cases/case-reading.ts";
import { columnNamed } from "../../cases/table.ts";
import { tabbedLine } from "../cases-leaf/tabbed-text.ts";
import { valueText } from "./value-text.ts";

/** Rows as lines of texts parted by tabs. It yields after each row, as finding a text does. */
export function* textOfRows(
  { cases }: CaseReading,
  rows: readonly number[],
  names: readonly string[],
): Generator<undefined, string> {
  const columns = names.flatMap((name) => columnNamed(cases, name) ?? []);
  const lines: string[] = [];
  for (const row of rows) {
    lines.push(tabbedLine(columns.map((column) => valueText(column, column.values[row]))));
    yield;
  }
  return lines.join("\n");
}
