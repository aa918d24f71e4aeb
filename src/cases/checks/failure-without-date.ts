import type { CellValue } from "../table.ts";
import type { CasesToCheck, Finding } from "./check.ts";

/**
 * Queries: signs that an eye failed, where no row of it says when. What stands as redetached,
 * never attached, reoperated on a day, detached when last seen or operated on again has its day.
 */
export function failureWithoutDate(cases: CasesToCheck): readonly Finding[] {
  const fields = ["reoperation_technique", "failure_cause", "operations_total"];
  if (!fields.some((field) => cases.has(field))) return [];
  return eyesOf(cases).flatMap((rows) => {
    const operations = rows.filter((row) => cases.value("technique", row) !== "oil removal");
    const isDated = operations.length > 1 || rows.some((row) => hasDay(cases, row));
    const ofRows = isDated ? [] : rows.flatMap((row) => signsIn(cases, row));
    return isDated && rows.length === 1 ? ofRows : [...ofRows, ...operationsMissing(cases, rows)];
  });
}

/** Rows by eye; a row of which the eye is not known is one of its own. */
function eyesOf(cases: CasesToCheck): readonly (readonly number[])[] {
  const known = cases.rowsByEye();
  const linked = new Set(known.flat());
  const others = Array.from({ length: cases.rowCount }, (_, row) => row).filter(
    (row) => !linked.has(row),
  );
  return [...known, ...others.map((row) => [row])];
}

function hasDay(cases: CasesToCheck, row: number): boolean {
  const technique = cases.value("reoperation_technique", row);
  return (
    cases.value("never_attached", row) === true ||
    cases.day("redetachment_date", row) !== null ||
    cases.value("status_last_seen", row) === "detached" ||
    cases.value("final_status", row) === "detached" ||
    (technique !== "oil removal" && cases.day("reoperation_date", row) !== null)
  );
}

function signsIn(cases: CasesToCheck, row: number): readonly Finding[] {
  const technique = cases.value("reoperation_technique", row);
  const causes = cases.value("failure_cause", row);
  return [
    ...(technique === null || technique === "oil removal" ? [] : [reoperation(row, technique)]),
    ...(Array.isArray(causes) && causes.length > 0 ? [cause(row, causes)] : []),
  ];
}

function reoperation(row: number, technique: CellValue): Finding {
  return {
    row,
    field: "reoperation_technique",
    code: "failure-without-date",
    message: "a reoperation is recorded without its day, and no redetachment.",
    found: String(technique),
    expected: "the day of the reoperation, or of the redetachment",
    remedy: "add the date: without one it cannot be told when the eye failed",
  };
}

function cause(row: number, causes: readonly string[]): Finding {
  return {
    row,
    field: "failure_cause",
    code: "failure-without-date",
    message: "a cause of failure is recorded, and no failure.",
    found: causes.join(", "),
    expected: "the day of the redetachment, or no cause",
    remedy: "add the date, or take the cause out if the eye did not fail",
  };
}

/** The greatest total of an eye is more than its rows, and than the number of the last of them. */
function operationsMissing(cases: CasesToCheck, rows: readonly number[]): readonly Finding[] {
  const numberIn = (field: string) => (row: number) => Number(cases.value(field, row) ?? 0);
  const [totalOf, placeOf] = [numberIn("operations_total"), numberIn("operation_number")];
  const most = rows.reduce((best, row) => (totalOf(row) > totalOf(best) ? row : best), rows[0]!);
  const known = rows.reduce((last, row) => Math.max(last, placeOf(row)), rows.length);
  if (totalOf(most) <= known) return [];
  const finding: Finding = {
    row: most,
    field: "operations_total",
    code: "failure-without-date",
    message: "more operations are counted than the file has for this eye.",
    found: `${totalOf(most)} operations; ${rows.length === 1 ? "1 row" : `${rows.length} rows`}`,
    expected: "a row for each operation, or the day of the reoperation",
    remedy: "add what is missing, or correct the total",
  };
  return [finding];
}
