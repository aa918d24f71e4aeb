import type { AttachmentCurves, CurveGroup } from "./attachment-curves.ts";
import { isDimmed, lastDay, survivalAt } from "./curve-geometry.ts";
import { type Layer, type PlotSize, segments, symbols } from "./layers.ts";
import { groupStyles } from "./theme.ts";

const mostBands = 2;
const spacing = 6;
const offset = 7;

/** Bands of more than two curves hide each other: intervals then stand as bars at the right. */
export function hasBands({ groups }: Pick<AttachmentCurves, "groups">): boolean {
  return groups.length <= mostBands;
}

/** Pixels right of the plot that the bars take. */
export function endIntervalsWidth(curves: AttachmentCurves): number {
  return hasBands(curves) ? 0 : endIntervalX(curves, curves.groups.length - 1) + 4;
}

/** Pixels from the plot to the bar of a group. */
export function endIntervalX(curves: AttachmentCurves, index: number): number {
  return hasBands(curves) ? 0 : offset + index * spacing;
}

/** For each group the interval on its last day as a bar, with its value as a dot. */
export function endIntervalLayers(
  curves: AttachmentCurves,
  floor: number,
  plot: PlotSize,
): readonly Layer[] {
  if (hasBands(curves)) return [];
  return curves.groups.flatMap((group, index) => {
    if (group.total === 0) return [];
    const x = plot.width + endIntervalX(curves, index);
    return bar(group, { x, until: curves.until, floor, plot, hue: groupStyles(index).hue });
  });
}

interface BarPlace {
  readonly x: number;
  readonly until: number;
  /** Where the axis begins. */
  readonly floor: number;
  readonly plot: PlotSize;
  readonly hue: string;
}

function bar(group: CurveGroup, { x, until, floor, plot, hue }: BarPlace): readonly Layer[] {
  const day = lastDay(group, until);
  const style = isDimmed(group, day) ? [hue, "dimmed"] : [hue];
  const y = (survival: number): number =>
    ((1 - Math.max(floor, survival)) / (1 - floor)) * plot.height;
  const { lower = null, upper = null } = group.steps.findLast((step) => step.time <= day) ?? {};
  const line = lower === null || upper === null ? [] : [{ x, y: y(upper), x2: x, y2: y(lower) }];
  const dot = { x, y: y(survivalAt(group, day)) };
  return [
    segments(line, ["interval", ...style]),
    symbols([dot], { shape: "circle", size: 22 }, style),
  ];
}
