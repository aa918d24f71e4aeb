import type { AttachmentCurves, CurveGroup } from "../../charts/attachment-curves.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { atRiskAt } from "../../statistics/survival-at.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { daysOf } from "../answering/time-words.ts";
import type { GroupCurve } from "./curve-of-group.ts";

/** The last word of what a step leads to: "vitrectomy, failed at day 41". */
type Happened = "failed" | "last seen";

/** The curves as they are drawn: in days, each step and each number at risk leading to its eyes. */
export function curveDrawing(
  record: EyeRecord,
  groups: readonly GroupCurve[],
  options: { readonly until: number; readonly picks: PickBook; readonly happened?: Happened },
): AttachmentCurves {
  const times = atRiskTimes(record, options.until);
  return {
    groups: groups.map((group, position) => drawnGroup(record, group, { ...options, position })),
    until: daysOf(record, options.until),
    atRiskTimes: times.map((time) => daysOf(record, time)),
    atRisk: groups.map((group) => atRiskAt(group.curve, times)),
    atRiskPicks: groups.map((group, position) =>
      times.map((time) => remaining(record, group, { time, position, picks: options.picks })),
    ),
    timeLabel: "months",
    yFloor: 0.6,
  };
}

function drawnGroup(
  record: EyeRecord,
  group: GroupCurve,
  {
    position,
    picks,
    happened = "failed",
  }: { position: number; picks: PickBook; happened?: Happened },
): CurveGroup {
  const { curve } = group;
  const at = Array.from(curve.time, (_, step) => step);
  const everyone = picks.add(`c${position}`, `${group.label}, all eyes`, group.eyes);
  return {
    label: group.label,
    total: group.eyes.length,
    end: daysOf(record, curve.time.at(-1) ?? 0),
    ...(group.fewFrom === null ? {} : { dimFrom: daysOf(record, group.fewFrom) }),
    ...(everyone === undefined ? {} : { pick: everyone }),
    steps: at
      .filter((step) => (curve.events[step] ?? 0) > 0)
      .map((step) => {
        const time = curve.time[step] ?? 0;
        const title = `${group.label}, ${happened} at ${record.timeUnit === "days" ? `day ${time}` : `${time} ${record.timeUnit}`}`;
        const pick = picks.add(`c${position}:${step}`, title, group.failedAt[step] ?? []);
        return {
          time: daysOf(record, time),
          survival: curve.survival[step] ?? 1,
          lower: limit(curve.lower[step]),
          upper: limit(curve.upper[step]),
          atRisk: curve.atRisk[step] ?? 0,
          ...(pick === undefined ? {} : { pick }),
        };
      }),
    censored: at
      .filter((step) => (curve.censored[step] ?? 0) > 0)
      .map((step) => ({
        time: daysOf(record, curve.time[step] ?? 0),
        survival: curve.survival[step] ?? 1,
        count: curve.censored[step] ?? 0,
      })),
  };
}

function limit(value: number | undefined): number | null {
  return value === undefined || Number.isNaN(value) ? null : value;
}

function remaining(
  record: EyeRecord,
  group: GroupCurve,
  { time, position, picks }: { time: number; position: number; picks: PickBook },
): string {
  const eyes = group.eyes.filter((eye) => (record.time[eye] ?? 0) >= time);
  const when =
    record.timeUnit === "days" ? `day ${Math.round(time)}` : `${time} ${record.timeUnit}`;
  return picks.add(`c${position}@${time}`, `${group.label}, at risk at ${when}`, eyes) ?? "";
}

/** Every third month of the first year; then every half year, year or two, up to seven columns. */
export function atRiskTimes(record: EyeRecord, until: number): number[] {
  const month = record.timeUnit === "months" ? 1 : 365.25 / 12 / daysOf(record, 1);
  const months = until / month;
  const step = [1, 3, 6, 12, 24, 48, 120].find((each) => months / each <= 6.01) ?? 240;
  // A window of 365 days is a hair under 12 months of 30.44.
  const columns = Math.floor((months + 0.02) / step) + 1;
  const exact = Array.from({ length: columns }, (_, column) => column * step * month);
  return record.timeUnit === "days" ? exact.map(Math.round) : exact;
}
