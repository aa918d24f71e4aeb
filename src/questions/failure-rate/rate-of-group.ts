import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { outcomeAt } from "../../outcomes/outcome-at.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import { clopperPearsonInterval } from "../../statistics/clopper-pearson-interval.ts";
import type { Interval } from "../../statistics/interval.ts";
import { survivalAt } from "../../statistics/survival-at.ts";
import { curveOfEyes, exactName, limitsName } from "../answering/curve-of-eyes.ts";
import type { Group } from "../answering/grouping.ts";
import { shareInterval } from "../answering/share-interval.ts";

export const intervalMethods = ["Wilson", "Clopper–Pearson"] as const;
export type IntervalMethod = (typeof intervalMethods)[number];

export interface RateOptions {
  readonly window?: TimeWindow;
  /** In the record's unit: visits may come this much early. */
  readonly tolerance: number;
  readonly method: IntervalMethod;
}

/** The failure rate of one group of eyes. Shares are fractions of 1; null: not estimable. */
export interface GroupRate {
  readonly label: string;
  /** Eyes of the record, by outcome. */
  readonly failedEyes: readonly number[];
  readonly knownEyes: readonly number[];
  readonly unknownEyes: readonly number[];
  readonly failed: number;
  /** Eyes whose outcome is known: the denominator. */
  readonly eyes: number;
  readonly notKnown: number;
  readonly rate: number | null;
  readonly interval: Interval | null;
  /** If none of the eyes not known had failed, and if all had. */
  readonly lowest: number | null;
  readonly highest: number | null;
  /** One less the Kaplan–Meier estimate at the window, all eyes in; null without a window. */
  readonly curve: (Interval & { readonly estimate: number }) | null;
}

export function rateOfGroup(record: EyeRecord, group: Group, options: RateOptions): GroupRate {
  const at = {
    ...(options.window === undefined ? {} : { time: options.window.length }),
    tolerance: options.tolerance,
  };
  const failedEyes: number[] = [];
  const knownEyes: number[] = [];
  const unknownEyes: number[] = [];
  for (const eye of group.eyes) {
    const outcome = outcomeAt(record, eye, at);
    if (outcome === "failed") failedEyes.push(eye);
    if (outcome === "not known") unknownEyes.push(eye);
    else knownEyes.push(eye);
  }
  const failed = failedEyes.length;
  const eyes = knownEyes.length;
  const all = group.eyes.length;
  return {
    label: group.label,
    failedEyes,
    unknownEyes,
    knownEyes,
    failed,
    eyes,
    notKnown: unknownEyes.length,
    rate: eyes === 0 ? null : failed / eyes,
    interval:
      options.method === "Wilson"
        ? shareInterval(record, failedEyes, knownEyes)
        : clopperPearsonInterval(failed, eyes),
    lowest: all === 0 ? null : failed / all,
    highest: all === 0 ? null : (failed + unknownEyes.length) / all,
    curve: curveEstimate(record, group, options.window),
  };
}

function curveEstimate(
  record: EyeRecord,
  group: Group,
  window: TimeWindow | undefined,
): GroupRate["curve"] {
  if (window === undefined) return null;
  const curve = curveOfEyes(record, group.eyes);
  const at = survivalAt(curve, window.length);
  if (at === null) return null;
  return {
    estimate: 1 - at.estimate,
    lower: 1 - at.upper,
    upper: 1 - at.lower,
    level: curve.level,
    method:
      at.estimate === 1
        ? exactName(record, group.eyes)
        : `Kaplan–Meier ${limitsName(record, group.eyes)}`,
  };
}

/**
 * The estimate to lead with, the same in sentence, table, chart and minutes: the plain share where
 * every outcome is known; else the curve's at the window, since a failure is known at once and a
 * success only at the window's end, so that the share among the known runs high. Null: not
 * estimable, as where no outcome at the window is known.
 */
export function headlineOf(rate: GroupRate): (Interval & { readonly estimate: number }) | null {
  if (!isByCurve(rate)) return plainShare(rate);
  return rate.eyes === 0 ? null : rate.curve;
}

/** Whether the rate that leads is the curve's, so that it is no quotient of the counts beside it. */
export function isByCurve({ notKnown, curve }: GroupRate): boolean {
  return notKnown > 0 && curve !== null;
}

function plainShare({ rate, interval }: GroupRate) {
  if (rate === null || interval === null) return null;
  const { lower, upper, method, level } = interval;
  return { estimate: rate, lower, upper, method, level };
}
