import type { Random } from "./random.ts";

/** Remarks as they stand in such files: with commas, quotation marks and nothing to read. */
const remarks = [
  "postured well",
  "poor posture, lives alone",
  'says vision "like a curtain"',
  "local anaesthetic, sub-Tenon",
  "general anaesthetic",
  "fellow eye: laser to lattice, same day",
  "missed 3/12 visit, rebooked",
  "photos taken",
] as const;

/** A remark in one row of twelve, else nothing. */
export function drawNote(random: Random): string {
  if (!random.chance(1 / 12)) return "";
  return random.weighted(remarks.map((remark) => [remark, 1]));
}
