import type { CaseReading } from "../cases/case-reading.ts";

/** Problems of a whole row: whatever is missing in it may have been written. */
const wholeRow: ReadonlySet<string> = new Set(["row-short", "row-moved", "row-unplaced"]);

/**
 * Whether something was written in a cell that could not be read. A blank says nothing; this says
 * that there was something, and so cannot be taken for nothing.
 */
export function unreadCells(reading: CaseReading): (field: string, row: number) => boolean {
  const cells = new Set<string>();
  const rows = new Set<number>();
  for (const { code, place, found, severity } of reading.problems) {
    if (place.line === undefined || severity !== "query") continue;
    if (wholeRow.has(code)) rows.add(place.line);
    if (place.field !== undefined && found !== undefined && found !== "") {
      cells.add(`${place.line} ${place.field}`);
    }
  }
  if (cells.size === 0 && rows.size === 0) return () => false;
  return (field, row) => {
    const column = reading.cases.positions.get(field);
    const line = reading.lines[row] ?? 0;
    if (column === undefined || reading.cases.columns[column]?.values[row] !== null) return false;
    return rows.has(line) || cells.has(`${line} ${field}`);
  };
}
