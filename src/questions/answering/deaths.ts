import type { EyeRecord } from "../../outcomes/eye-record.ts";

/**
 * Whether the eye's follow-up ended in the patient's death. Where follow-up was cut at a window, the
 * death of an eye followed to the window came after it (or on its last day) and does not count.
 */
export function endedInDeath(record: EyeRecord, eye: number): boolean {
  if (record.state[eye] !== "died") return false;
  const cut = record.window?.length ?? Number.POSITIVE_INFINITY;
  return (record.time[eye] ?? 0) < cut;
}
