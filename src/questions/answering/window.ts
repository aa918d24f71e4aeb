import type { GivenArguments } from "../../formula/vocabulary.ts";
import { type EyeRecord, isTimed } from "../../outcomes/eye-record.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { Problem } from "../../problem/problem.ts";
import { durationGiven } from "../question.ts";
import { durationText, timeIn } from "./time-words.ts";
import { timesNeeded } from "./timed.ts";

/** How early the visit that ends a window may come, in the record's unit; 0 where nothing is said. */
export function toleranceGiven(record: EyeRecord, given: GivenArguments): number {
  const tolerance = durationGiven(given, "tolerance");
  return tolerance === undefined ? 0 : timeIn(record.timeUnit, tolerance);
}

/**
 * The window a question looks at: its own `within`, else that of the eyes, else none. Asking for
 * longer than the eyes are followed is a problem, since follow-up was cut there.
 */
export function windowOf(
  record: EyeRecord,
  given: GivenArguments,
): { readonly window?: TimeWindow } | { readonly problems: readonly Problem[] } {
  const asked = durationGiven(given, "within");
  if (asked !== undefined && !isTimed(record)) return { problems: timesNeeded(record, given) };
  if (asked === undefined) return record.window === undefined ? {} : { window: record.window };
  const window = { length: timeIn(record.timeUnit, asked), text: durationText(asked) };
  if (record.window === undefined || window.length <= record.window.length) return { window };
  return {
    problems: [
      {
        code: "window-too-long",
        severity: "stop",
        place: { span: given.values.get("within")?.span ?? given.span },
        message: `the eyes are followed for ${record.window.text} only`,
        found: window.text,
        expected: `at most ${record.window.text}`,
        remedy: "give the eyes a longer window, or leave within out",
      },
    ],
  };
}
