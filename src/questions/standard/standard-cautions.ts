import type { Caution } from "../answer.ts";
import { count, listed } from "../answering/wording.ts";

/** An audit cycle that does not close. */
export function cycleOpen(
  isMet: boolean,
  next: {
    readonly action?: string | undefined;
    readonly role?: string | undefined;
    readonly reAudit?: number | undefined;
  },
): Caution[] {
  const lacking = [
    ...(isMet || next.action !== undefined ? [] : ["an action"]),
    ...(isMet || next.role !== undefined ? [] : ["who sees to it"]),
    ...(next.reAudit !== undefined ? [] : ["a day of re-audit"]),
  ];
  if (lacking.length === 0) return [];
  return [
    {
      code: "cycle-open",
      text: `The audit cycle is not closed: ${listed(lacking)} ${lacking.length === 1 ? "is" : "are"} not given.`,
    },
  ];
}

/** Several groups, each set against the same standard. */
export function severalVerdicts(groups: number): Caution[] {
  if (groups < 2) return [];
  return [
    {
      code: "several-verdicts",
      text: `${count(groups)} groups are each set against the standard: the more there are, the likelier that one misses it by chance.`,
    },
  ];
}
