import type { EyeRecord } from "../../outcomes/eye-record.ts";

/** Whether the eye's follow-up ended in the patient's death, within the window of the eyes. */
export function endedInDeath(record: EyeRecord, eye: number): boolean {
  return record.state[eye] === "died";
}
