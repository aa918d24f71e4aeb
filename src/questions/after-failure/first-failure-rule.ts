import type { Caution } from "../answer.ts";

/**
 * First failures are told by one rule, whatever other cells of a sheet call a failure, so that their
 * number need not be that of a failure rate beside them.
 */
export function firstFailureRule(): Caution {
  return {
    code: "first-failure-rule",
    text: "First failures are redetachments and eyes that never lay flat, counted from the day of the repair, an eye attached under oil as attached, whatever other cells count as a failure: their number may differ from that of a failure rate.",
  };
}
