import { type Layer, segments, texts } from "./layers.ts";
import { percentText } from "./percent-text.ts";
import { textWidth } from "./text-width.ts";
import { textSize } from "./theme.ts";

/** An axis of rates from zero, laid along the foot of a plot. */
export interface PercentAxis {
  /** Where it ends, a fraction. */
  readonly max: number;
  readonly ticks: readonly number[];
}

const ends = [1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100];

/** The shortest round axis from zero that holds every value, with four to six ticks. */
export function percentAxis(values: readonly number[]): PercentAxis {
  const highest = Math.max(0, ...values) * 100;
  const end = ends.find((percent) => percent >= highest - 1e-9) ?? 100;
  const step = [0.2, 0.5, 1, 2, 5, 10, 20, 25].find(
    (size) => end / size <= 5 && isWhole(end / size),
  );
  const count = Math.round(end / (step ?? end));
  const ticks = Array.from({ length: count + 1 }, (_, i) => (i * (step ?? end)) / 100);
  return { max: end / 100, ticks };
}

export interface PercentAxisPlace {
  /** Left edge and length. */
  readonly x: number;
  readonly width: number;
  /** Where the labels hang from. */
  readonly foot: number;
  /** Stretches of height that have hairlines: rows of text between them stay clear. */
  readonly spans: readonly { readonly top: number; readonly bottom: number }[];
}

/** Hairlines and, under the plot, labels; labels are thinned where there is no room. */
export function percentAxisLayers(
  { max, ticks }: PercentAxis,
  { x, width, foot, spans }: PercentAxisPlace,
): readonly Layer[] {
  const at = (rate: number): number => x + (rate / max) * width;
  const decimals = max < 0.05 ? 1 : 0;
  const label = (rate: number): string => percentText(rate, rate === 0 ? 0 : decimals);
  const widest = Math.max(...ticks.map((rate) => textWidth(label(rate), { size: textSize.label })));
  const stride = Math.ceil((widest + 8) / (width / Math.max(1, ticks.length - 1)));
  return [
    segments(
      ticks.flatMap((rate) =>
        spans.map(({ top, bottom }) => ({ x: at(rate), y: top, x2: at(rate), y2: bottom })),
      ),
      ["hairline"],
    ),
    texts(
      ticks
        .filter((_, i) => i % stride === 0)
        .map((rate) => ({ x: at(rate), y: foot + 16, text: label(rate) })),
      ["quiet"],
      "center",
    ),
  ];
}

function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) < 1e-9;
}
