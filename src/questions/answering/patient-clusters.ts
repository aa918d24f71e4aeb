import type { EyeRecord } from "../../outcomes/eye-record.ts";

/**
 * The patient of each of these eyes, for variances that allow for two eyes of one person; an eye
 * without a patient stands for itself. Undefined where no patient gives two of them: then eyes are
 * independent and the variance of the model holds.
 */
export function patientClusters(
  record: EyeRecord,
  eyes: readonly number[],
): readonly string[] | undefined {
  const clusters = eyes.map((eye) => {
    const patient = record.patient[eye] ?? null;
    return patient === null ? `eye ${eye}` : `patient ${patient}`;
  });
  return new Set(clusters).size === clusters.length ? undefined : clusters;
}
