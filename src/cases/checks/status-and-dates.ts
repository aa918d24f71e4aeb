import type { CasesToCheck, Finding } from "./check.ts";
import { describeDays } from "./check.ts";
import { redetachmentsOfEarlier } from "./redetachment-before-reoperation.ts";

/** A query: detached at the last visit, and no day on which that was first seen. */
export function detachedWithoutDate(cases: CasesToCheck): readonly Finding[] {
  if (!cases.has("redetachment_date") || !cases.has("status_last_seen")) return [];
  const datedLater = new Set(redetachmentsOfEarlier(cases).values());
  return cases.eachRow((row) => {
    if (cases.value("status_last_seen", row) !== "detached") return undefined;
    if (cases.day("redetachment_date", row) !== null || datedLater.has(row)) return undefined;
    if (cases.value("never_attached", row) === true) return undefined;
    return {
      row,
      field: "redetachment_date",
      code: "detached-without-date",
      message: "the retina was detached when last seen, and no day of redetachment is given.",
      found: "",
      expected: "the day it was first seen, or never_attached",
      remedy: "add the date",
    };
  });
}

/** A query: attached at the last visit after a redetachment, and nothing that reattached it. */
export function attachedAfterRedetachment(cases: CasesToCheck): readonly Finding[] {
  const withLater = cases.rowsWithLater();
  const ofEarlier = redetachmentsOfEarlier(cases);
  return cases.eachRow((row) => {
    const status = cases.value("status_last_seen", row);
    if (status !== "attached" && status !== "attached under oil") return undefined;
    if (withLater.has(row) || ofEarlier.has(row) || hasReoperation(cases, row)) return undefined;
    const failed = failureOf(cases, row);
    if (failed === undefined) return undefined;
    return {
      row,
      field: "status_last_seen",
      code: "attached-after-redetachment",
      message: "the retina was attached when last seen, after a failure and with no reoperation.",
      found: `${status}; ${failed}`,
      expected: "a reoperation, or a status that is not attached",
      remedy: "add the reoperation, or correct the status or the date",
    };
  });
}

function failureOf(cases: CasesToCheck, row: number): string | undefined {
  const day = cases.day("redetachment_date", row);
  if (day !== null) return describeDays(["redetachment_date", day]);
  return cases.value("never_attached", row) === true ? "never_attached yes" : undefined;
}

function hasReoperation(cases: CasesToCheck, row: number): boolean {
  const total = cases.value("operations_total", row);
  return (
    cases.day("reoperation_date", row) !== null ||
    cases.value("reoperation_technique", row) !== null ||
    (typeof total === "number" && total >= 2)
  );
}
