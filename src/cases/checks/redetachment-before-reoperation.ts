import { type CasesToCheck, describeDays, type Finding } from "./check.ts";

/**
 * A query: the theatre's record of an operation often carries the redetachment that led to it. It
 * stays in its row, and counts as the failure of the operation before.
 */
export function redetachmentBeforeReoperation(cases: CasesToCheck): readonly Finding[] {
  return [...redetachmentsOfEarlier(cases).keys()].map((row) => ({
    row,
    field: "redetachment_date",
    code: "redetachment-before-reoperation",
    message:
      "this redetachment lies between the eye's earlier operation and this one; it counts as the failure of the earlier one.",
    found: describeDays(
      ["redetachment_date", cases.day("redetachment_date", row)!],
      ["operation_date", cases.day("operation_date", row)!],
    ),
    expected: "a redetachment in the row of the operation that it followed",
    remedy: "nothing needs doing if that is right; else correct one of the two dates",
  }));
}

/**
 * Rows whose redetachment lies before their own operation and on or after the operation that the
 * eye had before it, each with the row of that one.
 */
export function redetachmentsOfEarlier(cases: CasesToCheck): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  if (!cases.has("redetachment_date") || !cases.has("operation_date")) return found;
  for (const rows of cases.rowsByEye()) {
    if (!rows.some((row) => isBeforeOperation(cases, row))) continue;
    const inOrder = rows
      .filter((row) => cases.day("operation_date", row) !== null)
      .sort((one, other) => operated(cases, one) - operated(cases, other));
    let before: number | undefined;
    inOrder.forEach((row, i) => {
      const last = inOrder[i - 1];
      if (last !== undefined && operated(cases, last) < operated(cases, row)) before = last;
      if (before === undefined || !isBeforeOperation(cases, row)) return;
      if (cases.day("redetachment_date", row)! >= operated(cases, before)) found.set(row, before);
    });
  }
  return found;
}

function isBeforeOperation(cases: CasesToCheck, row: number): boolean {
  const [day, operation] = [cases.day("redetachment_date", row), cases.day("operation_date", row)];
  return day !== null && operation !== null && day < operation;
}

function operated(cases: CasesToCheck, row: number): number {
  return cases.day("operation_date", row)!;
}
