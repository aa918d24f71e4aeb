import { type EffectIntervals, pointsText } from "./effect-intervals.ts";
import { type Layer, segments, texts } from "./layers.ts";
import { textWidth } from "./text-width.ts";
import { textSize } from "./theme.ts";

/** An axis of differences or, on a log scale, of ratios; it holds no difference. */
export interface EffectAxis {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
  /** Where on the axis a value lies, 0 to 1; what lies beyond is put at the end. */
  readonly at: (value: number) => number;
  readonly isBeyond: (value: number) => boolean;
  readonly none: number;
  readonly text: (tick: number) => string;
}

/** Ratios are drawn from 1/50 to 50 at most: what lies beyond, also 0 and Infinity, runs on. */
const ratioTicks = [0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50];
const differenceSteps = [0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.25, 0.5];

export function effectAxis({ rows, scale }: EffectIntervals): EffectAxis {
  const values = rows
    .flatMap(({ estimate, lower, upper }) => [estimate, lower, upper])
    .filter((value) => value !== null);
  return scale === "ratio" ? ratioAxis(values) : differenceAxis(values);
}

function ratioAxis(values: readonly number[]): EffectAxis {
  const room = 4;
  const drawn = values.filter((value) => value > 0 && value < Number.POSITIVE_INFINITY);
  const least = Math.min(0.5, ...drawn) / (values.includes(0) ? room : 1);
  const most = Math.max(2, ...drawn) * (values.includes(Number.POSITIVE_INFINITY) ? room : 1);
  const from = ratioTicks.findLast((tick) => tick <= least) ?? 0.02;
  const to = ratioTicks.find((tick) => tick >= most) ?? 50;
  const ticks = ratioTicks.filter((tick) => tick >= from && tick <= to);
  const share = (value: number): number => Math.log(value / from) / Math.log(to / from);
  return axis({ from, to, ticks, share, none: 1, text: (tick) => String(tick) });
}

function differenceAxis(values: readonly number[]): EffectAxis {
  const [least, most] = [Math.min(0, ...values), Math.max(0, ...values)];
  const span = Math.max(0.02, most - least);
  const step = differenceSteps.find((each) => span / each <= 6) ?? 0.5;
  const first = Math.floor(least / step + 1e-9);
  const last = Math.max(first + 1, Math.ceil(most / step - 1e-9));
  const ticks = Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step);
  const [from, to] = [first * step, last * step];
  const share = (value: number): number => (value - from) / (to - from);
  return axis({ from, to, ticks, share, none: 0, text: tickText(step) });
}

function tickText(step: number): (tick: number) => string {
  return (tick) => (step < 0.01 ? pointsText(tick) : pointsText(tick).replace(/\.0$/, ""));
}

function axis(part: {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
  readonly share: (value: number) => number;
  readonly none: number;
  readonly text: (tick: number) => string;
}): EffectAxis {
  const { from, to, share, ...rest } = part;
  return {
    from,
    to,
    ...rest,
    at: (value) => (value <= from ? 0 : value >= to ? 1 : share(value)),
    isBeyond: (value) => value < from || value > to,
  };
}

/** Hairlines at ticks, a dotted line at no difference, and the labels under the plot. */
export function effectAxisLayers(
  axis: EffectAxis,
  place: {
    readonly x: number;
    readonly width: number;
    readonly foot: number;
    readonly spans: readonly { readonly top: number; readonly bottom: number }[];
  },
): readonly Layer[] {
  const at = (tick: number): number => place.x + axis.at(tick) * place.width;
  const widest = Math.max(
    ...axis.ticks.map((tick) => textWidth(axis.text(tick), { size: textSize.label })),
  );
  const stride = Math.ceil((widest + 8) / (place.width / Math.max(1, axis.ticks.length - 1)));
  const middle = axis.ticks.findIndex((tick) => Math.abs(tick - axis.none) < 1e-9);
  const upright = (ticks: readonly number[]) =>
    ticks.flatMap((tick) =>
      place.spans.map(({ top, bottom }) => ({ x: at(tick), y: top, x2: at(tick), y2: bottom })),
    );
  return [
    segments(upright(axis.ticks), ["hairline"]),
    segments(upright([axis.none]), ["standard"]),
    texts(
      axis.ticks
        .filter((_, i) => (i - middle) % stride === 0)
        .map((tick) => ({ x: at(tick), y: place.foot + 16, text: axis.text(tick) })),
      ["quiet"],
      "center",
    ),
  ];
}
