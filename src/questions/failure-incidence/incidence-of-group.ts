import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { aalenJohansen, type CumulativeIncidence } from "../../statistics/aalen-johansen.ts";
import { clusteredAalenJohansen } from "../../statistics/clustered-aalen-johansen.ts";
import type { IncidenceVariance } from "../../statistics/incidence-variance.ts";
import type { SurvivalCurve } from "../../statistics/kaplan-meier.ts";
import { stepAt } from "../../statistics/survival-at.ts";
import { curveByPatient } from "../answering/curve-of-eyes.ts";
import type { Group } from "../answering/grouping.ts";
import { patientClusters } from "../answering/patient-clusters.ts";
import type { CompetingCauses } from "./cause-of-eye.ts";

/** The cumulative incidence of every cause in one group of eyes. */
export interface GroupIncidence {
  readonly label: string;
  readonly eyes: readonly number[];
  readonly curves: CumulativeIncidence;
  /** The share with no event of any cause, with limits. */
  readonly free: SurvivalCurve;
  /** Eyes that each cause ended, by cause and by step of the curves. */
  readonly endedAt: readonly (readonly (readonly number[])[])[];
}

/**
 * Of these eyes; where any patient gives two of them, with errors clustered by patient. Gray's
 * variance is of eyes that are independent, and is taken where it is asked for by name.
 */
export function incidenceOfGroup(
  { label, eyes }: Group,
  causes: CompetingCauses,
  { record, variance }: { readonly record: EyeRecord; readonly variance: IncidenceVariance },
): GroupIncidence {
  const time = eyes.map((eye) => causes.time[eye] ?? 0);
  const cause = eyes.map((eye) => causes.codes[eye] ?? 0);
  const input = { time, cause, causes: causes.labels.length };
  const cluster = variance === "Gray" ? undefined : patientClusters(record, eyes);
  const curves =
    cluster === undefined
      ? aalenJohansen({ ...input, variance })
      : clusteredAalenJohansen({ ...input, cluster });
  const endedAt = causes.labels.map(() => Array.from(curves.time, (): number[] => []));
  eyes.forEach((eye, i) => {
    endedAt[(cause[i] ?? 0) - 1]?.[stepAt(curves, time[i] ?? 0)]?.push(eye);
  });
  const free = curveByPatient({ time, event: cause.map((code) => code > 0) }, cluster);
  return { label, eyes, curves, free, endedAt };
}
