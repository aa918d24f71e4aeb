import { endOf, type IncidenceCurve, type IncidenceCurves } from "./incidence-curves.ts";
import type { Layer, Row } from "./layers.ts";
import { type PercentAxis, percentAxis } from "./percent-axis.ts";
import { groupStyles } from "./theme.ts";

/** Bands of more than two curves hide each other: the table has their limits. */
const mostBands = 2;

export function hasIncidenceBands({ curves }: Pick<IncidenceCurves, "curves">): boolean {
  return curves.length <= mostBands;
}

/** The axis of the share that failed: from zero to a round end over every curve and band. */
export function incidenceAxis(all: IncidenceCurves): PercentAxis {
  const banded = hasIncidenceBands(all);
  const values = all.curves.flatMap((curve) =>
    curve.steps
      .filter((step) => step.time <= endOf(curve, all.until))
      .flatMap(({ incidence, upper }) => [incidence, banded ? (upper ?? 0) : 0]),
  );
  return percentAxis([0.05, ...values]);
}

interface Channels {
  readonly x: object;
  readonly y: object;
}

function channelsOf(until: number, { max, ticks }: PercentAxis): Channels {
  const fixed = { nice: false, zero: false };
  const format = ticks.some((tick) => Math.abs(tick * 100 - Math.round(tick * 100)) > 1e-9)
    ? ".1%"
    : ".0%";
  const axis = { values: ticks, format, title: null };
  return {
    x: { field: "time", type: "quantitative", scale: { domain: [0, until], ...fixed }, axis: null },
    y: { field: "incidence", type: "quantitative", scale: { domain: [0, max], ...fixed }, axis },
  };
}

/** Bands, curves and what a click can hit, bands lowest. */
export function incidenceLayers(all: IncidenceCurves, axis: PercentAxis): readonly Layer[] {
  const { curves, until } = all;
  const channels = channelsOf(until, axis);
  const banded = hasIncidenceBands(all) ? curves : [];
  return [
    ...banded.map((curve, i) => band(curve, i, { channels, until, max: axis.max })),
    ...curves.map((curve, i) => line(curve, i, { channels, until })),
    ...curves.map((curve, i) => targets(curve, i, { channels, until })),
  ];
}

function band(
  curve: IncidenceCurve,
  index: number,
  { channels, until, max }: { channels: Channels; until: number; max: number },
): Layer {
  const end = endOf(curve, until);
  const values = curve.steps
    .filter((step) => step.time <= end)
    .flatMap(({ time, lower, upper }): Row[] =>
      lower === null || upper === null ? [] : [{ time, lower, upper: Math.min(max, upper) }],
    );
  const last = values.at(-1);
  return {
    data: { values: last === undefined ? [] : [...values, { ...last, time: end }] },
    mark: { type: "area", interpolate: "step-after", style: [groupStyles(index).hue, "band"] },
    encoding: { x: channels.x, y: { ...channels.y, field: "lower" }, y2: { field: "upper" } },
  };
}

function line(
  curve: IncidenceCurve,
  index: number,
  { channels, until }: { channels: Channels; until: number },
): Layer {
  const end = endOf(curve, until);
  const steps = curve.steps.filter((step) => step.time <= end);
  const { hue, dash } = groupStyles(index);
  const values = [
    { time: 0, incidence: 0 },
    ...steps.map(({ time, incidence }) => ({ time, incidence })),
    { time: end, incidence: steps.at(-1)?.incidence ?? 0 },
  ];
  return {
    data: { values },
    mark: { type: "line", interpolate: "step-after", style: [hue, dash, "curve"] },
    encoding: { ...channels, order: { value: null } },
  };
}

/** Unseen marks around the rises of a curve, for steps that can be picked. */
function targets(
  curve: IncidenceCurve,
  index: number,
  { channels, until }: { channels: Channels; until: number },
): Layer {
  let previous = 0;
  const values = curve.steps.flatMap(({ time, incidence, pick }) => {
    const from = previous;
    previous = incidence;
    return pick === undefined || time > endOf(curve, until)
      ? []
      : [{ time, incidence, from, pick }];
  });
  return {
    data: { values },
    mark: {
      type: "rule",
      strokeWidth: 12,
      strokeCap: "round",
      style: [groupStyles(index).hue, "target"],
    },
    encoding: { ...channels, y2: { field: "from" } },
  };
}
