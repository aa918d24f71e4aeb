import { isMissing } from "../missing-value.ts";
import type { CellValue } from "../table.ts";
import type { WrittenColumn } from "../written-column.ts";
import {
  type ColumnContext,
  type ColumnReading,
  type Fault,
  missingBecause,
  type Reading,
  type Remark,
  readEach,
} from "./column-reading.ts";
import { type PvrGrade, writtenPvrGrade } from "./written-pvr-grade.ts";

/**
 * Grades of proliferative vitreoretinopathy as none, A, B, C, and what else the writing tells:
 * extent and zone of the 1991 classification, and which classification it is. A grade of 1983 is
 * never turned into one of 1991; its D is C or worse here, and stands as written beside it.
 */
export function readPvrGrades(written: WrittenColumn, context: ColumnContext): ColumnReading {
  const grades = new Map<string, PvrGrade | undefined>();
  const gradeOf = (value: string) => {
    if (!grades.has(value)) grades.set(value, writtenPvrGrade(context.codes?.get(value) ?? value));
    return grades.get(value);
  };
  const read = readEach(written, (value): Reading => {
    const grade = gradeOf(value);
    if (grade !== undefined) return { value: grade.grade };
    return isMissing(value) ? { value: null } : missingBecause(notAGrade);
  });
  const part = (of: "system" | "clockHours" | "zone") =>
    written.map((value): CellValue => gradeOf(value)?.[of] ?? null);
  const companions = new Map([
    ["pvr_grade_written", written.map((value) => (isMissing(value) ? null : value))],
    ["pvr_system", part("system")],
    ["pvr_clock_hours", part("clockHours")],
    ["pvr_zone", part("zone")],
  ]);
  return { ...read, remarks: massive(written, gradeOf), companions };
}

function massive(
  written: WrittenColumn,
  gradeOf: (value: string) => PvrGrade | undefined,
): Remark[] {
  const count = written.count((value) => gradeOf(value)?.isMassive ?? false);
  if (count === 0) return [];
  return [
    {
      severity: "note",
      code: "pvr-grade-d",
      message: `${count === 1 ? "1 row has" : `${count} rows have`} grade D of the 1983 classification, which that of 1991 dropped; counted here as C or worse, and kept as written.`,
    },
  ];
}

const notAGrade: Fault = {
  code: "not-a-pvr-grade",
  message: "this is not a grade of proliferative vitreoretinopathy.",
  expected:
    "none, A, B, C, or as CP3, CA2 CP4 (1 to 12 clock hours), or C1 to C3, D1 to D3 of 1983",
  remedy: "correct the value",
};
