import type { Problem } from "../../problem/problem.ts";
import { writtenDay } from "../values/written-day.ts";
import type { CorrectedRow, Correction } from "./correction.ts";
import { type ReadRecord, readRecords } from "./records.ts";
import { type CorrectionRecord, correctionHeadings } from "./write-corrections.ts";

export interface ReadCorrections {
  readonly corrections: readonly Correction[];
  readonly problems: readonly Problem[];
}

/**
 * Corrections from the text of a file: the inverse of `writeCorrections`. A line that says no
 * correction is a problem and is passed over. Never throws.
 */
export function readCorrections(text: string, file = "corrections.csv"): ReadCorrections {
  const records = readRecords(text.replace(/^\ufeff/, ""));
  const [headings, ...lines] = records ?? [];
  if (headings?.values.join(",") !== correctionHeadings.join(",")) {
    return { corrections: [], problems: [notCorrections(file)] };
  }
  const corrections: Correction[] = [];
  const problems: Problem[] = [];
  for (const line of lines) {
    const correction = correctionOf(line);
    if (typeof correction === "string") problems.push(noCorrection(file, line, correction));
    else corrections.push(correction);
  }
  return { corrections, problems };
}

/** The correction on a line, or what is wrong with the line. */
function correctionOf({ values }: ReadRecord): Correction | string {
  if (values.length !== correctionHeadings.length) return `${values.length} values`;
  const record = Object.fromEntries(
    correctionHeadings.map((heading, i) => [heading, values[i]!]),
  ) as CorrectionRecord;
  const { field, from, to, why } = record;
  const row = rowOf(record);
  const correctedDay = isoDay(record.corrected_on);
  if (row === undefined) return "no row";
  if (field === "") return "no field";
  if (correctedDay === undefined) return record.corrected_on || "no day";
  return { row, field, from, to, why, correctedDay };
}

function rowOf(record: CorrectionRecord): CorrectedRow | undefined {
  const { patient, eye, file } = record;
  if (record.case !== "") return { by: "case", case: record.case };
  const operationDay = isoDay(record.operation_date);
  if (patient !== "" && eye !== "" && operationDay !== undefined) {
    return { by: "operation", patient, eye, operationDay };
  }
  return /^[1-9]\d*$/.test(record.line)
    ? { by: "line", file, line: Number(record.line) }
    : undefined;
}

/** A day as this file writes it, or as a spreadsheet that saved it again does. */
function isoDay(written: string): number | undefined {
  const day = writtenDay(written);
  return day.shape === "day" ? day.day : undefined;
}

function notCorrections(file: string): Problem {
  return {
    code: "corrections-unread",
    severity: "stop",
    place: { file, line: 1 },
    message: "this is not a file of corrections.",
    expected: `CSV whose headings are ${correctionHeadings.join(",")}`,
    remedy: "choose the file that the corrections were saved to",
  };
}

function noCorrection(file: string, { line }: ReadRecord, found: string): Problem {
  return {
    code: "correction-unread",
    severity: "query",
    place: { file, line },
    message: "this line is no correction, and is passed over.",
    found,
    expected:
      "a case, or patient, eye and operation date, or a line; a field; the day as 2025-03-31",
    remedy: "mend the line, or make the correction again",
  };
}
