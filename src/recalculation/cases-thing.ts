import type { CaseReading } from "../cases/case-reading.ts";
import type { Thing } from "../formula/value.ts";

/** The opened cases as workings see them: `cases`, and by name how many rows became of the file. */
export function casesThing(reading: CaseReading): Thing {
  const count = (number: number) => ({ kind: "number", number }) as const;
  const parts = new Map([
    ["rows_read", count(reading.rowsRead)],
    ["rows_kept", count(reading.lines.length)],
    ["rows_left_out", count(reading.leftOut.length)],
  ]);
  return { kind: "thing", of: "cases", parts, content: reading };
}
