import type { Value } from "../../../formula/value.ts";
import type { GivenArguments, Parameter } from "../../../formula/vocabulary.ts";
import type { Problem } from "../../../problem/problem.ts";
import { valueGiven } from "../../question.ts";

/** Days on which the sums were set back to 0 by hand, each with its reason. */
export interface Resets {
  /** In order of the day; whole days since 1970-01-01. */
  readonly each: readonly { readonly day: number; readonly because: string }[];
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
    meaning:
      "why they begin again: what was looked into and changed; a list where each has its own",
    takes: "value",
    kinds: ["text", "list"],
    required: false,
    whenLeftOut: "none",
    byNameOnly: true,
  },
];

/** The resets given; one without its reason, or that is no day, is a problem. */
export function resetsGiven(
  given: GivenArguments,
): { readonly resets: Resets } | { readonly problems: readonly Problem[] } {
  const asked = itemsOf(valueGiven(given, "reset"));
  const days = asked.flatMap((item) => (item.kind === "day" ? [item.day] : []));
  if (days.length < asked.length) return { problems: [notADay(given)] };
  const written = valueGiven(given, "because");
  const texts = itemsOf(written).map((item) => (item.kind === "text" ? item.text.trim() : ""));
  const reasons = written?.kind === "list" ? texts : days.map(() => texts[0] ?? "");
  const areTold = reasons.length === days.length && reasons.every((reason) => reason !== "");
  if (!areTold) return { problems: [withoutReason(given)] };
  const each = days.map((day, i) => ({ day, because: reasons[i] ?? "" }));
  return { resets: { each: each.sort((one, other) => one.day - other.day) } };
}

function itemsOf(value: Value | undefined): readonly Value[] {
  if (value === undefined) return [];
  return value.kind === "list" ? value.items : [value];
}

function notADay(given: GivenArguments): Problem {
  return {
    code: "not-a-day",
    severity: "stop",
    place: { span: given.values.get("reset")?.span ?? given.span },
    message: "a reset is a day",
    expected: "2025-06-01",
  };
}

function withoutReason(given: GivenArguments): Problem {
  return {
    code: "reset-without-reason",
    severity: "stop",
    place: { span: given.values.get("reset")?.span ?? given.span },
    message: "a reset hides what had gathered before it, and no reason is given",
    expected: 'because: "what was looked into and what was changed", or a list with one for each',
  };
}
