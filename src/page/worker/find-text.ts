import type { CaseReading } from "../../cases/case-reading.ts";
import { columnNamed } from "../../cases/table.ts";
import type { TextWanted } from "../cases-protocol.ts";
import { valueText } from "./value-text.ts";

export interface TextSought extends Omit<TextWanted, "arrangement"> {
  readonly reading: CaseReading;
  /** Rows of the reading, in the order in which they are shown. */
  readonly rows: readonly number[];
}

export type TextFound = {
  readonly row: number;
  readonly line: number;
  readonly column: string;
} | null;

/**
 * The next place that holds a text, in whatever case; from the end it begins again. It yields after
 * each row, so that whoever runs it may do something else meanwhile.
 */
export function* findText(sought: TextSought): Generator<undefined, TextFound> {
  const { reading, rows, behind } = sought;
  const wanted = sought.text.trim().toLowerCase();
  const columns = sought.columns.flatMap((name) => columnNamed(reading.cases, name) ?? []);
  if (wanted === "" || columns.length === 0) return null;
  const total = rows.length * columns.length;
  const start = behind.row * columns.length + behind.column + 1;
  for (let step = 0; step < total; step++) {
    const position = (start + step) % total;
    const across = position % columns.length;
    if (across === 0) yield;
    const row = (position - across) / columns.length;
    const column = columns[across]!;
    const own = rows[row]!;
    const isFound = valueText(column, column.values[own]).toLowerCase().includes(wanted);
    if (isFound) return { row, line: reading.lines[own]!, column: column.name };
  }
  return null;
}
