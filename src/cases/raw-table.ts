import type { Problem } from "../problem/problem.ts";
import type { LeftOutRow } from "./case-reading.ts";
import { valuesOf } from "./heading-row.ts";
import { lineBelowTable, repeatsHeadings } from "./line-outside-table.ts";
import { cellOf, type FileRows } from "./read-rows.ts";
import { roomFor, WrittenColumn } from "./written-column.ts";

/** The table of a file as text: headings, and under each its values. */
export interface RawTable {
  /** As in the file, made distinct: a second "eye" is "eye (2)", an empty one "column 3". */
  readonly headings: readonly string[];
  /** A value that a short row lacks is empty. */
  readonly columns: readonly WrittenColumn[];
  /** The line of each row. */
  readonly lines: readonly number[];
  /** By line, rows with more or fewer values than the others. */
  readonly ragged: ReadonlyMap<number, Raggedness>;
  readonly leftOut: readonly LeftOutRow[];
  readonly problems: readonly Problem[];
}

export interface Raggedness {
  /** Values more or, negative, fewer: that far its values may stand from where they belong. */
  readonly extra: number;
  /** The difference is in empty values at the end, and nothing if all others are in place. */
  readonly isEmptyEnd: boolean;
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
  const columns = columnsOf(rows, kept, width);
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
  const staying = [...table.lines.keys()].filter((row) => !gone.has(row));
  const columns = table.columns.map((column) => column.rows(staying));
  return { ...table, columns, lines: staying.map((row) => table.lines[row]!) };
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

/**
 * Columns up to the last that has a heading or a value: delimiters at the end make none, and
 * neither do rows longer than the others.
 */
function usedWidth(rows: FileRows, kept: readonly number[], written: readonly string[]): number {
  const longest = Math.max(written.length, usualLength(rows, kept));
  const counted = kept.filter((row) => lengthOf(rows, row) <= longest);
  let width = written.length;
  while (width > 0 && written[width - 1] === "") {
    const column = width - 1;
    const isUsed = counted.some((row) => cellAt(rows, row, column) !== "");
    if (isUsed) return width;
    width--;
  }
  return width;
}

/** By column, filled row by row, as the values lie in memory. */
function columnsOf(rows: FileRows, kept: readonly number[], width: number): WrittenColumn[] {
  const columns = Array.from({ length: width }, () => new Uint32Array(kept.length));
  for (let i = 0; i < kept.length; i++) {
    const start = rows.starts[kept[i]!]!;
    const length = Math.min(width, rows.starts[kept[i]! + 1]! - start);
    for (let column = 0; column < length; column++)
      columns[column]![i] = rows.cells[start + column]!;
  }
  const room = roomFor(rows.different.length);
  return columns.map((places) => WrittenColumn.among(rows.different, { places, room }));
}

function cellAt(rows: FileRows, row: number, column: number): string {
  const at = rows.starts[row]! + column;
  return at < rows.starts[row + 1]! ? cellOf(rows, at) : "";
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

/** Rows are measured by the usual length: with delimiters at the end of every row, it is longer. */
function raggedRows(
  rows: FileRows,
  kept: readonly number[],
  width: number,
): ReadonlyMap<number, Raggedness> {
  const usual = Math.max(width, usualLength(rows, kept));
  const ragged = new Map<number, Raggedness>();
  for (const row of kept) {
    const length = lengthOf(rows, row);
    if (length === usual) continue;
    const isEmptyEnd = length >= width && filledLength(rows, row) <= width;
    ragged.set(rows.lines[row]!, { extra: length - usual, isEmptyEnd });
  }
  return ragged;
}

/** The length of more than half of the rows; 0 where there is none. */
function usualLength(rows: FileRows, kept: readonly number[]): number {
  const tally = new Map<number, number>();
  for (const row of kept) {
    const length = lengthOf(rows, row);
    tally.set(length, (tally.get(length) ?? 0) + 1);
  }
  return [...tally].find(([, count]) => count * 2 > kept.length)?.[0] ?? 0;
}

function lengthOf(rows: FileRows, row: number): number {
  return rows.starts[row + 1]! - rows.starts[row]!;
}

/** Values of a row up to the last that is not empty. */
function filledLength(rows: FileRows, row: number): number {
  const start = rows.starts[row]!;
  let end = rows.starts[row + 1]!;
  while (end > start && rows.cells[end - 1] === 0) end--;
  return end - start;
}
