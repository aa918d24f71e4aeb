import type { GivenArguments, Parameter } from "../../../formula/vocabulary.ts";
import type { Problem } from "../../../problem/problem.ts";
import { valueGiven } from "../../question.ts";

/** Days on which the sums were set back to 0 by hand, and why. */
export interface Resets {
  /** Whole days since 1970-01-01, in order. */
  readonly days: readonly number[];
  readonly because: string | undefined;
}

export const resetParameters: readonly Parameter[] = [
  {
    name: "reset",
    meaning: "days from which the sums begin again at 0, such as [2025-06-01]",
    takes: "value",
    kinds: ["list", "day"],
    required: false,
    whenLeftOut: "none",
    byNameOnly: true,
  },
  {
    name: "because",
    meaning: "why they begin again: what was looked into and changed",
    takes: "value",
    kinds: ["text"],
    required: false,
    whenLeftOut: "none",
    byNameOnly: true,
  },
];

/** The resets given; one without its reason, or that is no day, is a problem. */
export function resetsGiven(
  given: GivenArguments,
): { readonly resets: Resets } | { readonly problems: readonly Problem[] } {
  const value = valueGiven(given, "reset");
  const because = valueGiven(given, "because");
  const items = value === undefined ? [] : value.kind === "list" ? value.items : [value];
  const days = items.flatMap((item) => (item.kind === "day" ? [item.day] : []));
  const span = given.values.get("reset")?.span ?? given.span;
  if (days.length < items.length) {
    const problem = { code: "not-a-day", message: "a reset is a day", expected: "2025-06-01" };
    return { problems: [{ ...problem, severity: "stop", place: { span } }] };
  }
  const reason = because?.kind === "text" && because.text.trim() !== "" ? because.text : undefined;
  if (days.length > 0 && reason === undefined) {
    return {
      problems: [
        {
          code: "reset-without-reason",
          severity: "stop",
          place: { span },
          message: "a reset hides what had gathered before it, and no reason is given",
          expected: 'because: "what was looked into and what was changed"',
        },
      ],
    };
  }
  return { resets: { days: [...days].sort((a, b) => a - b), because: reason } };
}
