import type { LeftOut } from "../answer.ts";
import type { PickBook } from "./answered-eyes.ts";

/** A reason for which eyes are left out, leading to them under a key of the answer's own. */
export function openedReason(
  picks: PickBook,
  { key, reason, eyes }: { key: string; reason: string; eyes: readonly number[] },
): LeftOut {
  const pick = picks.add(key, reason, eyes);
  return { reason, count: eyes.length, ...(pick === undefined ? {} : { pick }) };
}
