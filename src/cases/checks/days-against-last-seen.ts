import type { CasesToCheck, Finding } from "./check.ts";
import { describeDays } from "./check.ts";

/** A query: an event after the last visit was seen by somebody, so that visit was not the last. */
export function eventAfterLastSeen(cases: CasesToCheck): readonly Finding[] {
  if (!cases.has("last_seen_date")) return [];
  return ["redetachment_date", "reoperation_date"].flatMap((field) =>
    cases.eachRow((row) => {
      const [day, seen] = [cases.day(field, row), cases.day("last_seen_date", row)];
      if (day === null || seen === null || day <= seen) return undefined;
      return {
        row,
        field,
        code: "event-after-last-seen",
        message: "this happened after the day the eye was last seen.",
        found: describeDays([field, day], ["last_seen_date", seen]),
        expected: "a last visit on or after it",
        remedy: "put the later visit into last_seen_date, or correct this date",
      };
    }),
  );
}
