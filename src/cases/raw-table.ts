import type { Problem } from "../problem/problem.ts";
import type { LeftOutRow } from "./case-reading.ts";
import { valuesOf } from "./heading-row.ts";
import { lineBelowTable, repeatsHeadings } from "./line-outside-table.ts";
import type { FileRows } from "./read-rows.ts";

/** The table of a file as text: headings, and under each its values. */
export interface RawTable {
  /** As in the file, made distinct: a second "eye" is "eye (2)", an empty one "column 3". */
  readonly headings: readonly string[];
  /** By column, then row. A value that a short row lacks is empty. */
  readonly columns: readonly (readonly string[])[];
  /** The line of each row. */
  readonly lines: readonly number[];
  /**
   * By line, how many values more (or, negative, fewer) than headings its row has: that far its
   * values may stand from where they belong.
   */
  readonly ragged: ReadonlyMap<number, number>;
  readonly leftOut: readonly LeftOutRow[];
  readonly problems: readonly Problem[];
}

/** Lays the rows under the headings. Every row below them is kept, or left out with its reason. */
export function rawTable(rows: FileRows, heading: number): RawTable {
  const written = valuesOf(rows, heading);
  const kept: number[] = [];
  const leftOut: LeftOutRow[] = [];
  for (let row = heading + 1; row < rows.lines.length; row++) {
    const reason = lineBelowTable(rows, row, written) ?? repeatsHeadings(rows, row, written);
    if (reason === undefined) kept.push(row);
    else leftOut.push({ line: rows.lines[row]!, ...reason });
  }
  const width = usedWidth(rows, kept, written);
  const columns = Array.from({ length: width }, (_, column) => columnAt(rows, kept, column));
  const ragged = raggedRows(rows, kept, width);
  return {
    headings: distinctHeadings(written.slice(0, width)),
    columns,
    lines: kept.map((row) => rows.lines[row]!),
    ragged,
    leftOut,
    problems: [
      ...titles(rows, heading),
      ...headingProblems(written.slice(0, width)),
      ...leftOut.map(noCase),
    ],
  };
}

/** The table without some of its rows. */
export function withoutRows(table: RawTable, rows: readonly number[]): RawTable {
  if (rows.length === 0) return table;
  const gone = new Set(rows);
  const stays = (_: unknown, row: number) => !gone.has(row);
  const columns = table.columns.map((values) => values.filter(stays));
  return { ...table, columns, lines: table.lines.filter(stays) };
}

function noCase({ line, code, reason }: LeftOutRow): Problem {
  return {
    code,
    severity: "stop",
    place: { line },
    message: `this row is no case: ${reason}.`,
    expected: "one operation a row",
    remedy: "nothing needs doing; take the line out of the file if you like",
  };
}

/** Columns up to the last that has a heading or a value: trailing delimiters make none. */
function usedWidth(rows: FileRows, kept: readonly number[], written: readonly string[]): number {
  let width = written.length;
  while (width > 0 && written[width - 1] === "") {
    const column = width - 1;
    const isUsed = kept.some((row) => cellAt(rows, row, column) !== "");
    if (isUsed) return width;
    width--;
  }
  return width;
}

function columnAt(rows: FileRows, kept: readonly number[], column: number): string[] {
  const values = new Array<string>(kept.length);
  for (let i = 0; i < kept.length; i++) values[i] = cellAt(rows, kept[i]!, column);
  return values;
}

function cellAt(rows: FileRows, row: number, column: number): string {
  const at = rows.starts[row]! + column;
  return at < rows.starts[row + 1]! ? rows.cells[at]! : "";
}

function distinctHeadings(written: readonly string[]): string[] {
  const taken = new Set<string>();
  return written.map((heading, position) => {
    const plain = heading === "" ? `column ${position + 1}` : heading.replaceAll(/\s+/g, " ");
    let distinct = plain;
    for (let n = 2; taken.has(distinct); n++) distinct = `${plain} (${n})`;
    taken.add(distinct);
    return distinct;
  });
}

function titles(rows: FileRows, heading: number): Problem[] {
  if (heading === 0) return [];
  const lines = heading === 1 ? "1 line" : `${heading} lines`;
  return [
    {
      code: "title-lines",
      severity: "note",
      place: { line: rows.lines[heading]! },
      message: `the headings are on this line; ${lines} of title above ${heading === 1 ? "is" : "are"} no part of the table.`,
      found: valuesOf(rows, 0).find((value) => value !== "") ?? "",
    },
  ];
}

function headingProblems(written: readonly string[]): Problem[] {
  const seen = new Set<string>();
  return written.flatMap((heading, position): Problem[] => {
    if (heading === "") return [headingEmpty(position)];
    if (seen.has(heading)) return [headingTwice(heading)];
    seen.add(heading);
    return [];
  });
}

function headingEmpty(position: number): Problem {
  return {
    code: "heading-empty",
    severity: "query",
    place: { field: `column ${position + 1}` },
    message: "this column has values and no heading.",
    expected: "a heading over every column",
    remedy: "write what the column holds over it",
  };
}

function headingTwice(heading: string): Problem {
  return {
    code: "heading-twice",
    severity: "query",
    place: { field: heading },
    message: "more than one column has this heading; each is kept as a column of its own.",
    expected: "different headings",
    remedy: "rename one of them, or say which is to be read",
  };
}

function raggedRows(
  rows: FileRows,
  kept: readonly number[],
  width: number,
): ReadonlyMap<number, number> {
  const ragged = new Map<number, number>();
  for (const row of kept) {
    const extra = filledWidth(rows, row, width) - width;
    if (extra !== 0) ragged.set(rows.lines[row]!, extra);
  }
  return ragged;
}

/** Values of a row; empty ones beyond the headings do not count. */
function filledWidth(rows: FileRows, row: number, width: number): number {
  const start = rows.starts[row]!;
  let count = rows.starts[row + 1]! - start;
  while (count > width && rows.cells[start + count - 1] === "") count--;
  return count;
}
