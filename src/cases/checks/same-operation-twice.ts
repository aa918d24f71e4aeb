import { formatDay } from "../calendar-day.ts";
import type { CasesToCheck, Finding } from "./check.ts";

/** Stops the later row: an eye is operated on once a day, and would be counted twice. */
export function sameOperationTwice(cases: CasesToCheck): readonly Finding[] {
  if (!cases.has("operation_date")) return [];
  const several = cases.rowsByEye().filter((rows) => rows.length > 1);
  return several.flatMap((rows) => {
    const seen = new Set<number>();
    return rows.flatMap((row): Finding[] => {
      const day = cases.day("operation_date", row);
      if (day === null) return [];
      if (seen.has(day)) return [twice(cases, row, day)];
      seen.add(day);
      return [];
    });
  });
}

function twice(cases: CasesToCheck, row: number, day: number): Finding {
  return {
    row,
    field: "operation_date",
    code: "same-operation-twice",
    message: "an earlier row has the same patient, eye and day.",
    found: `${cases.value("patient", row)}, ${cases.value("eye", row)}, ${formatDay(day)}`,
    expected: "one row for each operation",
    remedy: "take one of the rows out, or correct its eye or its date",
  };
}
