import type { EyeRecord } from "../../outcomes/eye-record.ts";

/** What is too small to be told: fewer eyes than the threshold, or eyes of fewer patients. */
export interface SmallCounts {
  /** How many patients the eyes are of; an eye without a patient stands for one of its own. */
  patientsOf(eyes: readonly number[]): number;
  /** Whether there are none of them, or enough. */
  isShowable(eyes: readonly number[]): boolean;
}

export function smallCounts(record: EyeRecord, threshold: number): SmallCounts {
  const patientsOf = (eyes: readonly number[]) =>
    new Set(eyes.map((eye) => record.patient[eye] ?? eye)).size;
  return {
    patientsOf,
    isShowable: (eyes) => eyes.length === 0 || patientsOf(eyes) >= threshold,
  };
}
