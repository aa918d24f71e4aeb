import type { CaseReading } from "../cases/case-reading.ts";
import { fieldReader } from "./episode.ts";
import type { EyeRecord } from "./eye-record.ts";

/**
 * For each eye of a record its rows in the case table, the primary repair first. Where several
 * files were put together a line stands for several rows: those of the same patient and side are
 * the eye's.
 */
export function rowsOfEyes(reading: CaseReading, record: EyeRecord): readonly number[][] {
  const read = fieldReader(reading.cases);
  const onLine = new Map<number, number[]>();
  for (const [row, line] of reading.lines.entries()) {
    const rows = onLine.get(line);
    if (rows === undefined) onLine.set(line, [row]);
    else rows.push(row);
  }
  const sideOf = fieldReader(record.table);
  const taken = new Set<number>();
  return record.lines.map((lines, eye) =>
    lines.map((line) => {
      const free = (onLine.get(line) ?? []).filter((row) => !taken.has(row));
      const patient = record.patient[eye] ?? null;
      const own = free.find(
        (row) =>
          String(read("patient", row)) === String(patient) &&
          read("eye", row) === sideOf("eye", eye),
      );
      const row = own ?? free[0];
      if (row === undefined) throw new Error(`line ${line} of the record is not among the cases`);
      taken.add(row);
      return row;
    }),
  );
}
