import type { CaseReading } from "../../cases/case-reading.ts";
import { columnNamed } from "../../cases/table.ts";
import type { PickedRow } from "../../questions/answer.ts";

/** A row of the cases where several files were put together, with what tells it from others. */
export interface RowOnLine {
  /** The same for the same row in every answer; of the first file its line. */
  readonly key: number;
  /** What stands in the columns that name it, by their headings. */
  readonly marks: ReadonlyMap<string, string>;
}

/** By line, the rows of all files that stand on it. */
export type RowsOnLines = ReadonlyMap<number, readonly RowOnLine[]>;

const naming = ["case", "patient", "eye"] as const;

/** More lines than any file has. */
const linesOfFile = 100_000_000;

/** The key of a row: its line and, of a further file, the place of the file. */
export function rowKey({ lines, fileOf }: CaseReading, row: number): number {
  return (lines[row] ?? 0) + linesOfFile * (fileOf?.[row] ?? 0);
}

/** Undefined for a single file, whose lines tell its rows. */
export function rowsOnLines(reading: CaseReading): RowsOnLines | undefined {
  if ((reading.files?.length ?? 1) < 2) return undefined;
  const columns = naming.flatMap((name) => columnNamed(reading.cases, name) ?? []);
  const rows = new Map<number, RowOnLine[]>();
  reading.lines.forEach((line, row) => {
    const marks = new Map(columns.map(({ label, values }) => [label, String(values[row] ?? "–")]));
    rows.set(line, [...(rows.get(line) ?? []), { key: rowKey(reading, row), marks }]);
  });
  return rows;
}

/**
 * The key of a row that an answer describes. Undefined where several files are there and what it says
 * of the row fits none of those on its line, or more than one.
 */
export function keyOfDescribed(
  { lines, texts }: PickedRow,
  headings: readonly string[],
  rows: RowsOnLines | undefined,
): number | undefined {
  const line = lines[0] ?? 0;
  if (rows === undefined) return line;
  const said = new Map(headings.map((heading, at) => [heading, texts[at] ?? ""]));
  const fitting = (rows.get(line) ?? []).filter(({ marks }) => {
    const told = [...marks].filter(([heading]) => said.has(heading));
    return told.length > 0 && told.every(([heading, mark]) => said.get(heading) === mark);
  });
  return fitting.length === 1 ? fitting[0]?.key : undefined;
}
