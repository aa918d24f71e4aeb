import { headings } from "../../data-demo/cells.ts";

/** One row of a demo file by field of the dictionary; blank cells are "". */
export type FileRow = Readonly<Record<string, string>>;

/** The rows of a demo file without faults. */
export function fileRows(csv: string): readonly FileRow[] {
  const [heading = "", ...lines] = csv.trimEnd().split("\n");
  const names = cellsOfLine(heading);
  const fields = names.map((name) => headings.find(([, written]) => written === name)![0]);
  return lines.map((line) => rowOf(fields, cellsOfLine(line)));
}

function rowOf(fields: readonly string[], cells: readonly string[]): FileRow {
  if (cells.length !== fields.length) throw new RangeError(`${cells.length} cells in a row.`);
  return Object.fromEntries(fields.map((field, index) => [field, cells[index]!]));
}

/** The cells of a line; a quoted cell may hold commas and doubled quotation marks (RFC 4180). */
export function cellsOfLine(line: string): readonly string[] {
  const cells = [...`${line},`.matchAll(/(?:"((?:[^"]|"")*)"|([^",]*)),/g)];
  return cells.map(([, inQuotes, plain]) => inQuotes?.replaceAll('""', '"') ?? plain ?? "");
}

/** Rows of each eye in order of operation. */
export function rowsByEye(rows: readonly FileRow[]): ReadonlyMap<string, readonly FileRow[]> {
  const eyes = new Map<string, FileRow[]>();
  for (const row of rows) {
    const eye = `${row.patient} ${row.eye}`;
    eyes.set(eye, [...(eyes.get(eye) ?? []), row]);
  }
  return eyes;
}
