import type { FileRow } from "./file-rows.ts";

export type RecordedRisk = "low" | "middle" | "high";

/** None, one, or two and more of the eight factors recorded as present before surgery. */
export function recordedRisk(row: FileRow): RecordedRisk {
  const present = [
    row.pvr_grade === "B" || row.pvr_grade === "C",
    row.vitreous_haemorrhage === "yes",
    row.smoker === "current",
    row.lens === "aphakic",
    row.uveitis === "yes",
    Number(row.quadrants_detached) > 2,
    row.break_type === "giant tear",
    row.choroidal_detachment === "yes",
  ].filter(Boolean).length;
  return present === 0 ? "low" : present === 1 ? "middle" : "high";
}
