import type { CasesToCheck, Finding } from "./check.ts";
import { describeDays } from "./check.ts";
import { redetachmentsOfEarlier } from "./redetachment-before-reoperation.ts";

/**
 * Stops the row: the time from operation to event would be less than nothing. A redetachment that
 * is of the eye's operation before is no such thing.
 */
export function eventBeforeOperation(cases: CasesToCheck): readonly Finding[] {
  const findings = ["redetachment_date", "reoperation_date", "death_date"].flatMap((field) =>
    before(cases, field, {
      code: "event-before-operation",
      message: "this happened before the operation.",
      remedy: "correct one of the two dates",
    }),
  );
  if (findings.length === 0) return findings;
  const ofEarlier = redetachmentsOfEarlier(cases);
  return findings.filter(({ field, row }) => field !== "redetachment_date" || !ofEarlier.has(row));
}

/** Stops the row: nothing is known of it after the operation. */
export function lastSeenBeforeOperation(cases: CasesToCheck): readonly Finding[] {
  return before(cases, "last_seen_date", {
    code: "last-seen-before-operation",
    message: "the eye was last seen before its operation.",
    remedy: "correct one of the two dates",
  });
}

/** A query: oil may be from an operation elsewhere, an acuity may stand in the wrong column. */
export function laterDayBeforeOperation(cases: CasesToCheck): readonly Finding[] {
  return ["oil_removed_date", "acuity_after_date"].flatMap((field) =>
    before(cases, field, {
      code: "day-before-operation",
      message: "this day lies before the operation.",
      remedy: "check both dates",
    }),
  );
}

function before(
  cases: CasesToCheck,
  field: string,
  words: Pick<Finding, "code" | "message"> & { readonly remedy: string },
): readonly Finding[] {
  if (!cases.has(field)) return [];
  return cases.eachRow((row) => {
    const [day, operated] = [cases.day(field, row), cases.day("operation_date", row)];
    if (day === null || operated === null || day >= operated) return undefined;
    const found = describeDays([field, day], ["operation_date", operated]);
    return { row, field, ...words, found, expected: "a day on or after the operation" };
  });
}
