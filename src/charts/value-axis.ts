import { dayFromParts, formatDay, partsOfDay } from "../cases/calendar-day.ts";
import { percentText } from "./percent-text.ts";
import type { DrawnScale } from "./table-drawing.ts";

/** An axis of values with round ticks. */
export interface ValueAxis {
  readonly min: number;
  readonly max: number;
  readonly ticks: readonly { readonly value: number; readonly text: string }[];
}

export interface ValueAxisOptions {
  readonly kind: DrawnScale["kind"];
  /** Whether it begins at zero, as lengths that are compared must. */
  readonly fromZero: boolean;
  /** About how many ticks there is room for. */
  readonly ticks: number;
}

/** The shortest round axis that holds every value; of days, from the first to the last of them. */
export function valueAxis(values: readonly number[], options: ValueAxisOptions): ValueAxis {
  if (options.kind === "day") return dayAxis(values, options.ticks);
  const zero = options.fromZero ? [0] : [];
  const [lowest, highest] = extent([...zero, ...values]);
  const least = values.every(Number.isInteger) ? 1 : 0;
  const spread = highest - lowest || Math.abs(highest) || 1;
  const step = Math.max(least, roundStep(spread / options.ticks));
  const first = Math.floor(lowest / step + 1e-9);
  const last = Math.max(Math.ceil(highest / step - 1e-9), first + 1);
  const ticks = Array.from({ length: last - first + 1 }, (_, i) => tidy((first + i) * step));
  return {
    min: first * step,
    max: last * step,
    ticks: ticks.map((value) => ({ value, text: valueLabel(value, options.kind) })),
  };
}

/** A value as an axis or a mark shows it; four digits that count nothing may be a year. */
export function valueLabel(value: number, kind: DrawnScale["kind"]): string {
  if (kind === "day") return formatDay(Math.round(value));
  if (kind === "share") return percentText(value, Number.isInteger(tidy(value * 100)) ? 0 : 1);
  const whole = Number.isInteger(value) || Math.abs(value) >= 10_000;
  const digits = Math.abs(value) >= 1000 ? 5 : 4;
  const text = whole ? String(Math.round(value)) : String(Number(value.toPrecision(digits)));
  const isLong = kind === "count" || Math.abs(value) >= 10_000;
  return whole && isLong ? text.replace(/\B(?=(\d{3})+$)/g, ",") : text;
}

/** 1, 2 or 5 times a power of ten, not below the size asked for. */
function roundStep(size: number): number {
  const power = 10 ** Math.floor(Math.log10(size) + 1e-9);
  const factor = [1, 2, 5, 10].find((each) => each * power >= size * (1 - 1e-9)) ?? 10;
  return factor * power;
}

/** Without the last digits that binary fractions leave behind: 0.3, not 0.30000000000000004. */
function tidy(value: number): number {
  return Number(value.toPrecision(12));
}

function extent(values: readonly number[]): readonly [number, number] {
  let [lowest, highest] = [values[0] ?? 0, values[0] ?? 0];
  for (const value of values) {
    if (value < lowest) lowest = value;
    if (value > highest) highest = value;
  }
  return [lowest, highest];
}

const monthSteps = [1, 3, 6, 12, 24, 60, 120, 240, 600, 1200];

/** Ticks on first days of months or years; on days themselves where all lie within two months. */
function dayAxis(values: readonly number[], room: number): ValueAxis {
  const [min, last] = extent(values);
  const max = Math.max(last, min + 1);
  const months = (max - min) / 30.4375;
  if (months < 2) return { min, max, ticks: dayTicks(min, max, room) };
  const step = monthSteps.find((size) => months / size <= room) ?? 2400;
  const { year, month } = partsOfDay(min);
  const from = Math.ceil((year * 12 + month - 1) / step) * step;
  const ticks: ValueAxis["ticks"][number][] = [];
  for (let at = from; ; at += step) {
    const first = dayFromParts(Math.floor(at / 12), (at % 12) + 1, 1);
    if (first === null || first > max) break;
    const text = step >= 12 ? formatDay(first).slice(0, 4) : formatDay(first).slice(0, 7);
    if (first >= min) ticks.push({ value: first, text });
  }
  return { min, max, ticks };
}

function dayTicks(min: number, max: number, room: number): ValueAxis["ticks"] {
  const step = Math.max(1, roundStep((max - min) / room));
  const count = Math.floor((max - min) / step) + 1;
  return Array.from({ length: count }, (_, i) => {
    const value = min + i * step;
    return { value, text: formatDay(value) };
  });
}
