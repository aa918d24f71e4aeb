import type { AttachmentCurves, CurveGroup } from "./attachment-curves.ts";
import { bandRuns, curvePoints, lastDay, splitAt, thinned } from "./curve-geometry.ts";
import { hasBands } from "./end-intervals.ts";
import type { Layer, PlotSize, Row } from "./layers.ts";
import type { SurvivalAxis } from "./survival-axis.ts";
import { groupStyles } from "./theme.ts";

/** Channels of the plot: days across, share still attached upwards. */
interface Channels {
  readonly x: object;
  readonly y: object;
}

export function curveChannels(until: number, { floor, ticks }: SurvivalAxis): Channels {
  const fixed = { nice: false, zero: false };
  const axis = { values: ticks, format: ".0%", title: null };
  return {
    x: { field: "time", type: "quantitative", scale: { domain: [0, until], ...fixed }, axis: null },
    y: { field: "survival", type: "quantitative", scale: { domain: [floor, 1], ...fixed }, axis },
  };
}

/** Bands, curves, censor marks and what a click can hit, bands lowest. */
export function curveLayers(
  curves: AttachmentCurves,
  axis: SurvivalAxis,
  plot: PlotSize,
): readonly Layer[] {
  const { groups, until } = curves;
  const channels = curveChannels(until, axis);
  const banded = hasBands(curves) ? groups : [];
  const tickGap = (2 / plot.width) * until;
  return [
    ...banded.flatMap((group, i) => bands(group, i, { channels, until, floor: axis.floor })),
    ...groups.flatMap((group, i) => curve(group, i, { channels, until })),
    ...groups.map((group, i) => censorMarks(group, i, { channels, until, tickGap })),
    ...groups.map((group) => targets(group, { channels, until })),
  ];
}

/** Lines through the plot at landmark days. */
export function landmarkLayer(
  { landmarks = [], until }: AttachmentCurves,
  axis: SurvivalAxis,
  plot: PlotSize,
): Layer {
  return {
    data: { values: landmarks.filter((day) => day <= until).map((time) => ({ time })) },
    mark: { type: "rule", style: ["hairline"] },
    encoding: { x: curveChannels(until, axis).x, y: { value: 0 }, y2: { value: plot.height } },
  };
}

function bands(
  group: CurveGroup,
  index: number,
  { channels, until, floor }: { channels: Channels; until: number; floor: number },
): readonly Layer[] {
  const area = (style: string, values: readonly Row[]): Layer => ({
    data: { values },
    mark: { type: "area", interpolate: "step-after", style: [groupStyles(index).hue, style] },
    encoding: { x: channels.x, y: { ...channels.y, field: "lower" }, y2: { field: "upper" } },
  });
  return bandRuns(group, until).flatMap((run) => {
    const shown = run.map((point) => ({
      ...point,
      lower: Math.max(floor, point.lower),
      upper: Math.max(floor, point.upper),
    }));
    const { before, after } = splitAt(shown, group.dimFrom);
    return [area("band", before), area("dimmed-band", after)];
  });
}

function curve(
  group: CurveGroup,
  index: number,
  { channels, until }: { channels: Channels; until: number },
): readonly Layer[] {
  const { hue, dash } = groupStyles(index);
  const line = (style: readonly string[], values: readonly Row[]): Layer => ({
    data: { values },
    mark: { type: "line", interpolate: "step-after", style: [hue, dash, ...style] },
    encoding: { ...channels, order: { value: null } },
  });
  const points = curvePoints(group, until).map((point) => ({ ...point }));
  const { before, after } = splitAt(points, group.dimFrom);
  return [line(["curve"], before), line(["curve", "dimmed"], after)];
}

function censorMarks(
  { censored, end }: CurveGroup,
  index: number,
  { channels, until, tickGap }: { channels: Channels; until: number; tickGap: number },
): Layer {
  const drawn = thinned(
    censored.filter((eyes) => eyes.time <= Math.min(end, until)),
    tickGap,
  );
  return {
    data: { values: drawn.map(({ time, survival }) => ({ time, survival })) },
    mark: {
      type: "point",
      shape: "M0,-1L0,1",
      size: 64,
      style: [groupStyles(index).hue, "censored"],
    },
    encoding: { ...channels },
  };
}

/** Unseen marks around the drops of a curve, for steps that can be picked. */
function targets(
  group: CurveGroup,
  { channels, until }: { channels: Channels; until: number },
): Layer {
  let previous = 1;
  const values = group.steps.flatMap(({ time, survival, pick }) => {
    const from = previous;
    previous = survival;
    return pick === undefined || time > lastDay(group, until)
      ? []
      : [{ time, survival, from, pick }];
  });
  return {
    data: { values },
    mark: { type: "rule", strokeWidth: 12, strokeCap: "round", style: ["target"] },
    encoding: { ...channels, y2: { field: "from" } },
  };
}
