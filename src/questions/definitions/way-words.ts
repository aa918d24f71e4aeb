import type { WayOfCounting } from "../../outcomes/ways-of-counting.ts";

/** A way of counting in words: "redetachment, oil followed from removal, undecided as failed". */
export function wayWords({ failure, oil, undecided }: WayOfCounting): string {
  const parts = [failure, ...(oil === null ? [] : [`oil ${oil}`]), undecidedWords(undecided)];
  return parts.join(", ");
}

function undecidedWords(undecided: WayOfCounting["undecided"]): string {
  if (undecided === "failed" || undecided === "attached") return `undecided eyes as ${undecided}`;
  return "undecided eyes followed to their last visit";
}
