import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { Problem } from "../../problem/problem.ts";
import { eyesGiven } from "../question.ts";
import { type Grouping, groupEyes } from "./grouping.ts";
import { timesNeeded } from "./timed.ts";
import { windowOf } from "./window.ts";

/** What nearly every question is asked of: eyes, a window, and groups of eyes. */
export interface Asked {
  readonly record: EyeRecord;
  readonly window?: TimeWindow;
  readonly grouping: Grouping;
}

/**
 * The arguments `eyes`, `within` and `by` of a call, or everything that is wrong with them.
 * `times`: the question needs failures that have a time.
 */
export function asked(
  given: GivenArguments,
  { times }: { readonly times: boolean },
): Asked | { readonly problems: readonly Problem[] } {
  const record = eyesGiven(given);
  const untimed = times ? timesNeeded(record, given) : [];
  if (untimed.length > 0) return { problems: untimed };
  const windowed = windowOf(record, given);
  const grouped = groupEyes(record, given.rows.get("by"));
  const problems = [windowed, grouped].flatMap((each) => ("problems" in each ? each.problems : []));
  if ("problems" in windowed || "problems" in grouped) return { problems };
  return { record, grouping: grouped.grouping, ...windowed };
}
