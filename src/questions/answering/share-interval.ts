import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { clusteredProportion } from "../../statistics/clustered-proportion.ts";
import type { Interval } from "../../statistics/interval.ts";
import { wilsonInterval } from "../../statistics/wilson-interval.ts";
import { patientClusters } from "./patient-clusters.ts";

const clusteredWilson = "patient-clustered Wilson";

/**
 * The 95% interval of the share that `counted` eyes are of `eyes`: Wilson's, and where any patient
 * gives two of these eyes, Wilson's at the effective number of eyes (Rao and Scott 1992), clustered
 * by patient; its method says which. Null for no eyes.
 */
export function shareInterval(
  record: EyeRecord,
  counted: readonly number[],
  eyes: readonly number[],
): Interval | null {
  const clusters = patientClusters(record, eyes);
  if (clusters === undefined) return wilsonInterval(counted.length, eyes.length);
  const among = new Set(counted);
  const interval = clusteredProportion(
    eyes.map((eye) => among.has(eye)),
    clusters,
  );
  if (interval === null) return null;
  const { lower, upper, level } = interval;
  return { lower, upper, level, method: clusteredWilson };
}

/** The method of that interval by name, for the heading of its column. */
export function shareMethod(record: EyeRecord, eyes: readonly number[]): string {
  return patientClusters(record, eyes) === undefined ? "Wilson" : clusteredWilson;
}
