import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { clusteredKaplanMeier } from "../../statistics/clustered-kaplan-meier.ts";
import { kaplanMeier, type SurvivalCurve } from "../../statistics/kaplan-meier.ts";
import type { SurvivalLimits } from "../../statistics/survival-limits.ts";
import { patientClusters } from "./patient-clusters.ts";

export interface CurveOptions {
  /** Follow-up is cut here, in the record's unit; left out, it runs to its end. */
  readonly until?: number;
  readonly limits?: SurvivalLimits;
}

/**
 * The curve of these eyes with Greenwood's error, and where any patient gives two of them with the
 * infinitesimal jackknife's error, clustered by patient. The estimate is the same either way.
 */
export function curveOfEyes(
  record: EyeRecord,
  eyes: readonly number[],
  { until = Number.POSITIVE_INFINITY, limits = "log-log" }: CurveOptions = {},
): SurvivalCurve {
  const input = {
    time: eyes.map((eye) => Math.min(record.time[eye] ?? 0, until)),
    event: eyes.map((eye) => record.event[eye] === 1 && (record.time[eye] ?? 0) <= until),
    limits,
  };
  const cluster = patientClusters(record, eyes);
  return cluster === undefined ? kaplanMeier(input) : clusteredKaplanMeier({ ...input, cluster });
}

/** How its interval is called: "log-log", "patient-clustered log-log". */
export function limitsName(
  record: EyeRecord,
  eyes: readonly number[],
  limits: SurvivalLimits = "log-log",
): string {
  const isClustered = patientClusters(record, eyes) !== undefined;
  return `${isClustered ? "patient-clustered " : ""}${limits}`;
}
