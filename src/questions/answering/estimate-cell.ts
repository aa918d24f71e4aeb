import type { AnswerCell } from "../answer.ts";
import { percent } from "./wording.ts";

/** What stands where nothing can be estimated. */
export const noEstimate: AnswerCell = { text: "–", value: null };

interface Limits {
  readonly lower: number;
  readonly upper: number;
}

/** "13.3% (9.2 – 19.1)": a share with its limits. */
export function estimateCell(share: number | null, limits: Limits | null): AnswerCell {
  if (share === null) return noEstimate;
  if (limits === null) return { text: percent(share), value: share };
  const { lower, upper } = limits;
  return {
    text: `${percent(share)} (${limitsText(limits)})`,
    value: share,
    limits: { lower, upper },
  };
}

/** "9.2 – 19.1%": two limits of a share. */
export function limitsCell(limits: Limits | null): AnswerCell {
  if (limits === null) return noEstimate;
  const { lower, upper } = limits;
  return { text: `${limitsText(limits)}%`, value: null, limits: { lower, upper } };
}

function limitsText({ lower, upper }: Limits): string {
  // Spaces that do not break, so that two limits stay on one line.
  return `${(100 * lower).toFixed(1)}\u00a0–\u00a0${(100 * upper).toFixed(1)}`;
}
