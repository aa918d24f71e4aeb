import { aalenJohansen, type CumulativeIncidence } from "../../statistics/aalen-johansen.ts";
import type { IncidenceVariance } from "../../statistics/incidence-variance.ts";
import { kaplanMeier, type SurvivalCurve } from "../../statistics/kaplan-meier.ts";
import { stepAt } from "../../statistics/survival-at.ts";
import type { Group } from "../answering/grouping.ts";
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

export function incidenceOfGroup(
  group: Group,
  causes: CompetingCauses,
  variance: IncidenceVariance,
): GroupIncidence {
  const { eyes, label } = group;
  const time = eyes.map((eye) => causes.time[eye] ?? 0);
  const cause = eyes.map((eye) => causes.codes[eye] ?? 0);
  const curves = aalenJohansen({ time, cause, causes: causes.labels.length, variance });
  const endedAt = causes.labels.map(() => Array.from(curves.time, (): number[] => []));
  eyes.forEach((eye, i) => {
    endedAt[(cause[i] ?? 0) - 1]?.[stepAt(curves, time[i] ?? 0)]?.push(eye);
  });
  const free = kaplanMeier({ time, event: cause.map((code) => code > 0) });
  return { label, eyes, curves, free, endedAt };
}
