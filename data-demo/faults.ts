import { type Cells, headings } from "./cells.ts";
import { lineOf, rowLine } from "./csv.ts";
import type { RecordedRow } from "./recorded-row.ts";
import { type RowFault, rowFaults } from "./row-faults.ts";

/** One deliberate fault, and where it stands in the file. */
export interface Fault {
  readonly name: string;
  /** Line of the file, counted from 1, the heading line being 1. */
  readonly line: number;
  /** The case in that line; empty where the line is no case. */
  readonly case: string;
  readonly wrong: string;
}

/** The lines of the file below its heading, with every fault put in, and the list of faults. */
export function withFaults(rows: readonly RecordedRow[]): {
  readonly lines: readonly string[];
  readonly faults: readonly Fault[];
} {
  const chosen = chooseRows(rows);
  const lines: string[] = [];
  const faults: Fault[] = [];
  for (const row of rows) {
    const { cells } = row;
    const fault = chosen.get(row);
    if (fault !== undefined) faults.push(faultAt(fault, cells, lines.length + 2));
    lines.push(...(fault === undefined ? [rowLine(cells)] : fault.lines(cells)));
  }
  return {
    lines: [...lines, "", totalsLine(rows)],
    faults: [...faults, ...atTheEnd(lines.length)],
  };
}

function chooseRows(rows: readonly RecordedRow[]): ReadonlyMap<RecordedRow, RowFault> {
  const chosen = new Map<RecordedRow, RowFault>();
  for (const fault of rowFaults) {
    const start = Math.floor(fault.from * rows.length);
    const found = rows.slice(start).find((row) => !chosen.has(row) && fault.fits(row));
    if (found === undefined) throw new RangeError(`No row fits the fault "${fault.name}".`);
    chosen.set(found, fault);
  }
  return chosen;
}

function faultAt({ name, wrong, at = 0 }: RowFault, cells: Cells, firstLine: number): Fault {
  const inserted = name === "reoperation alone";
  return { name, wrong, line: firstLine + at, case: inserted ? "X001" : (cells.case ?? "") };
}

function atTheEnd(rowLines: number): readonly Fault[] {
  const blank = { name: "blank line", wrong: "an empty line", line: rowLines + 2, case: "" };
  const totals = { name: "totals line", wrong: "a line of totals, no case", case: "" };
  return [blank, { ...totals, line: rowLines + 3 }];
}

function totalsLine(rows: readonly RecordedRow[]): string {
  const totals = new Map([
    ["case", "Total"],
    ["patient", String(rows.length)],
  ]);
  return lineOf(headings.map(([field]) => totals.get(field) ?? ""));
}
