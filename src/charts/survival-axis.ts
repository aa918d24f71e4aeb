import type { AttachmentCurves, CurveGroup } from "./attachment-curves.ts";
import { curvePoints, isDimmed, lastDay } from "./curve-geometry.ts";
import { hasBands } from "./end-intervals.ts";

export interface SurvivalAxis {
  /** Where the axis begins, a fraction. */
  readonly floor: number;
  readonly ticks: readonly number[];
  /** A limit of an interval lies below the floor. */
  readonly limitsBelow: boolean;
}

/** Floors in percent that the axis may begin at; below half it begins at zero. */
const floors = [90, 80, 70, 60, 50, 0];

/**
 * The axis of the share still attached: it holds every curve and, up to where a curve is dimmed,
 * the intervals that are drawn; `yFloor` can only raise it over intervals, never over a curve.
 */
export function survivalAxis({ groups, until, yFloor }: AttachmentCurves): SurvivalAxis {
  const curves = groups.flatMap((group) => curvePoints(group, until).map((p) => p.survival));
  const limits = groups.flatMap((group) => {
    const all = lowerLimits(group, lastDay(group, until));
    return hasBands({ groups }) ? all : all.slice(-1);
  });
  const lowestCurve = Math.min(1, ...curves);
  const natural = floorUnder(
    Math.min(lowestCurve, ...limits.filter((l) => !l.dim).map((l) => l.lower)),
  );
  const floor = yFloor === undefined ? natural : Math.min(yFloor, floorUnder(lowestCurve));
  return { floor, ticks: ticksFrom(floor), limitsBelow: limits.some((l) => l.lower < floor) };
}

function lowerLimits(group: CurveGroup, end: number): readonly { lower: number; dim: boolean }[] {
  return group.steps
    .filter((step) => step.time <= end)
    .flatMap(({ time, lower }) => (lower === null ? [] : [{ lower, dim: isDimmed(group, time) }]));
}

function floorUnder(lowest: number): number {
  return (floors.find((percent) => percent <= lowest * 100 - 1) ?? 0) / 100;
}

function ticksFrom(floor: number): readonly number[] {
  const range = Math.round((1 - floor) * 100);
  const step = range <= 10 ? 2 : range <= 20 ? 5 : range <= 50 ? 10 : 20;
  const ticks: number[] = [];
  for (let percent = 100; percent >= floor * 100 - 1e-9; percent -= step) ticks.push(percent / 100);
  return ticks;
}
