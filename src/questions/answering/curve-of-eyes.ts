import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { clusteredKaplanMeier } from "../../statistics/clustered-kaplan-meier.ts";
import { clustersAtRisk, limitedByClusters } from "../../statistics/clusters-at-risk.ts";
import {
  type KaplanMeierInput,
  kaplanMeier,
  type SurvivalCurve,
} from "../../statistics/kaplan-meier.ts";
import type { SurvivalLimits } from "../../statistics/survival-limits.ts";
import { patientClusters } from "./patient-clusters.ts";

export interface CurveOptions {
  /** Follow-up is cut here, in the record's unit; left out, it runs to its end. */
  readonly until?: number;
  readonly limits?: SurvivalLimits;
}

/**
 * The curve of these eyes with Greenwood's error, and where any patient gives two of them with the
 * infinitesimal jackknife's error, clustered by patient; its exact limits, where none has failed yet,
 * then count patients. The estimate is the same either way.
 */
export function curveOfEyes(
  record: EyeRecord,
  eyes: readonly number[],
  { until = Number.POSITIVE_INFINITY, limits = "log-log" }: CurveOptions = {},
): SurvivalCurve {
  const time = new Float64Array(eyes.length);
  const event = new Uint8Array(eyes.length);
  for (let i = 0; i < eyes.length; i++) {
    const followed = record.time[eyes[i]!] ?? 0;
    time[i] = Math.min(followed, until);
    event[i] = followed <= until ? record.event[eyes[i]!]! : 0;
  }
  const input = { time, event, limits };
  return curveByPatient(input, patientClusters(record, eyes));
}

/** The curve of a follow-up, clustered by patient where clusters are given. */
export function curveByPatient(
  input: KaplanMeierInput,
  cluster: Int32Array | undefined,
): SurvivalCurve {
  if (cluster === undefined) return kaplanMeier(input);
  const curve = clusteredKaplanMeier({ ...input, cluster });
  return limitedByClusters(curve, clustersAtRisk(input.time, cluster));
}

/** How its interval is called: "log-log", "patient-clustered log-log". */
export function limitsName(
  record: EyeRecord,
  eyes: readonly number[],
  limits: SurvivalLimits = "log-log",
): string {
  return byPatient(record, eyes, limits);
}

/** Where none has failed: "exact binomial", "patient-clustered exact binomial". */
export function exactName(record: EyeRecord, eyes: readonly number[]): string {
  return byPatient(record, eyes, "exact binomial");
}

function byPatient(record: EyeRecord, eyes: readonly number[], name: string): string {
  return patientClusters(record, eyes) === undefined ? name : `patient-clustered ${name}`;
}
