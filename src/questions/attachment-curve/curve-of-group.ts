import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { SurvivalCurve } from "../../statistics/kaplan-meier.ts";
import type { SurvivalLimits } from "../../statistics/survival-limits.ts";
import { curveOfEyes } from "../answering/curve-of-eyes.ts";
import type { Group } from "../answering/grouping.ts";

/** A Kaplan–Meier curve of one group, up to the window. */
export interface GroupCurve {
  readonly label: string;
  readonly eyes: readonly number[];
  readonly failed: number;
  readonly curve: SurvivalCurve;
  /** Eyes that fail at each time of the curve, and eyes whose follow-up ends there. */
  readonly failedAt: readonly (readonly number[])[];
  /** From this time on fewer than 10 eyes, or than a tenth of them, remain at risk. */
  readonly fewFrom: number | null;
}

/** Fewer than this at risk, or than this share of the group, and the curve is not to be leaned on. */
const fewEyes = 10;
const fewShare = 0.1;

export function curveOfGroup(
  record: EyeRecord,
  group: Group,
  options: { readonly until?: number; readonly limits: SurvivalLimits },
): GroupCurve {
  const until = options.until ?? Number.POSITIVE_INFINITY;
  const cut = (eye: number): number => Math.min(record.time[eye] ?? 0, until);
  const failedBy = (eye: number): boolean =>
    record.event[eye] === 1 && (record.time[eye] ?? 0) <= until;
  const curve = curveOfEyes(record, group.eyes, options);
  const failures = group.eyes.filter(failedBy);
  const byTime = new Map<number, number[]>();
  for (const eye of failures) {
    const at = byTime.get(cut(eye));
    if (at === undefined) byTime.set(cut(eye), [eye]);
    else at.push(eye);
  }
  return {
    label: group.label,
    eyes: group.eyes,
    failed: failures.length,
    curve,
    failedAt: Array.from(curve.time, (time) => byTime.get(time) ?? []),
    fewFrom: fewRemainFrom(curve),
  };
}

function fewRemainFrom(curve: SurvivalCurve): number | null {
  const few = Math.max(fewEyes, fewShare * curve.total);
  const position = curve.atRisk.findIndex((atRisk) => atRisk < few);
  return position < 0 ? null : (curve.time[position] ?? null);
}
