import type { GivenArguments } from "../../formula/vocabulary.ts";
import { type EyeRecord, isTimed } from "../../outcomes/eye-record.ts";
import type { Problem } from "../../problem/problem.ts";

/**
 * A state read at the last visit has no time, so nothing that needs times can be asked of it:
 * among the eyes still coming late, those detached would be nearly all. Empty where times exist.
 */
export function timesNeeded(record: EyeRecord, given: GivenArguments): Problem[] {
  if (isTimed(record)) return [];
  return [
    {
      code: "no-times",
      severity: "stop",
      place: { span: given.values.get("eyes")?.span ?? given.span },
      message: `"${record.rules?.failure}" is read once, at the last visit, and has no time`,
      expected: "a failure with a day: redetachment or reoperation",
      remedy: "choose such a definition for the eyes; failure_rate answers this one",
    },
  ];
}
