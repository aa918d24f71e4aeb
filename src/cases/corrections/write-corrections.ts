import { formatDay } from "../calendar-day.ts";
import type { CorrectedRow, Correction } from "./correction.ts";
import { writeRecords } from "./records.ts";

/** Headings of a file of corrections: what the row is called by, then what is put right. */
export const correctionHeadings = [
  "case",
  "patient",
  "eye",
  "operation_date",
  "file",
  "line",
  "field",
  "from",
  "to",
  "why",
  "corrected_on",
] as const;

export type CorrectionRecord = Readonly<Record<(typeof correctionHeadings)[number], string>>;

/** Corrections as the text of a file, in their order: CSV by RFC 4180. */
export function writeCorrections(corrections: readonly Correction[]): string {
  const records = corrections.map((correction) => {
    const record = recordOf(correction);
    return correctionHeadings.map((heading) => record[heading]);
  });
  return writeRecords([correctionHeadings, ...records]);
}

function recordOf({ row, field, from, to, why, correctedDay }: Correction): CorrectionRecord {
  return { ...calledBy(row), field, from, to, why, corrected_on: formatDay(correctedDay) };
}

function calledBy(row: CorrectedRow) {
  const none = { case: "", patient: "", eye: "", operation_date: "", file: "", line: "" };
  if (row.by === "case") return { ...none, case: row.case };
  if (row.by === "line") return { ...none, file: row.file, line: String(row.line) };
  const { patient, eye, operationDay } = row;
  return { ...none, patient, eye, operation_date: formatDay(operationDay) };
}
