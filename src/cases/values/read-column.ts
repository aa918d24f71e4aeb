import type { ColumnSpec } from "../field.ts";
import { isMissing } from "../missing-value.ts";
import type { WrittenColumn } from "../written-column.ts";
import type { ColumnContext, ColumnReading } from "./column-reading.ts";
import { readAcuities } from "./read-acuities.ts";
import { readClockHours } from "./read-clock-hours.ts";
import { readCodeLists, readCodes } from "./read-codes.ts";
import { readDays } from "./read-days.ts";
import { readNumbers } from "./read-numbers.ts";
import { readPvrGrades } from "./read-pvr-grades.ts";
import { readTruths } from "./read-truths.ts";

/** Reads a column as its kind says. One value a row; what cannot be read is missing and listed. */
export function readColumn(
  written: WrittenColumn,
  spec: ColumnSpec,
  context: ColumnContext,
): ColumnReading {
  if (spec.name === "pvr_grade") return readPvrGrades(written, context);
  if (spec.name === "break_clock_hours") return readClockHours(written, spec, context);
  switch (spec.kind) {
    case "day":
      return readDays(written, context);
    case "number":
      return readNumbers(written, spec, context);
    case "truth":
      return readTruths(written, context);
    case "code":
      return readCodes(written, spec, context);
    case "codes":
      return readCodeLists(written, spec, context);
    case "acuity":
      return readAcuities(written, spec.name, context);
    case "text":
      return readTexts(written);
  }
}

function readTexts(written: WrittenColumn): ColumnReading {
  const values = written.map((value) => (isMissing(value) ? null : value));
  return { values, faults: [], remarks: [] };
}
