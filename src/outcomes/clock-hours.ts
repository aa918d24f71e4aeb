import { type CellValue, columnNamed } from "../cases/table.ts";
import type { EyeRecord } from "./eye-record.ts";

/**
 * Clock hours as the surgeon faces the patient, 12 at the top, for either eye: 3 o'clock is nasal
 * in a right eye and temporal in a left one (universal convention; common practice, no source).
 */
export type Side = "right" | "left";

export const quadrants = [
  "superotemporal",
  "inferotemporal",
  "superonasal",
  "inferonasal",
] as const;
export type Quadrant = (typeof quadrants)[number];

/** Clockwise from 12 in a right eye. */
const clockwiseRight: readonly Quadrant[] = [
  "superonasal",
  "inferonasal",
  "inferotemporal",
  "superotemporal",
];

/**
 * The quadrant of a clock hour, 1 to 12, fractions allowed (10.5 is half past ten). A quadrant
 * begins at 12, 3, 6 or 9 and ends before the next, so that each hour lies in one only.
 */
export function quadrantOf(hour: number, side: Side): Quadrant {
  const position = Math.floor((hour % 12) / 3);
  return clockwiseRight[side === "right" ? position : 3 - position] ?? "superonasal";
}

/** The hour of the other eye that lies as far to the nose: 10 and 2, 12 and 12. */
export function mirroredHour(hour: number): number {
  const mirrored = (12 - (hour % 12)) % 12;
  return mirrored === 0 ? 12 : mirrored;
}

/** Hours from one place clockwise to another: 11 to 2 is 3. */
export function clockSpan(from: number, to: number): number {
  return (to - from + 24) % 12;
}

/** Whether an hour lies between two others, going clockwise; both ends belong. */
export function isBetweenHours(
  hour: number,
  { from, to }: { readonly from: number; readonly to: number },
): boolean {
  return clockSpan(from, hour) <= clockSpan(from, to);
}

/** What counts as an inferior break: published series differ (common practice, no source). */
export const inferiorHours = [
  { name: "4 to 8", from: 4, to: 8 },
  { name: "5 to 7", from: 5, to: 7 },
] as const;
export type InferiorHours = (typeof inferiorHours)[number];

/** The breaks of one eye. */
export interface EyeBreaks {
  /** Row of the record. */
  readonly eye: number;
  readonly side: Side;
  /** 1 to 12, each once, at least one. */
  readonly hours: readonly number[];
}

export interface BreaksByEye {
  readonly eyes: readonly EyeBreaks[];
  /** Eyes of which no place is known, each for one reason. */
  readonly without: readonly { readonly reason: string; readonly eyes: readonly number[] }[];
}

/** Where the breaks of each eye lay at the primary repair. */
export function breaksByEye(record: EyeRecord): BreaksByEye {
  const eyes: EyeBreaks[] = [];
  const without = new Map<string, number[]>();
  const at = (field: string, eye: number): CellValue =>
    columnNamed(record.table, field)?.values[eye] ?? null;
  for (let eye = 0; eye < record.time.length; eye++) {
    const hours = hoursOf(at("break_clock_hours", eye));
    const side = at("eye", eye);
    const reason = whyNoPlace({ hours, side, types: at("break_type", eye) });
    if (reason === undefined) eyes.push({ eye, side: side as Side, hours });
    else without.set(reason, [...(without.get(reason) ?? []), eye]);
  }
  return { eyes, without: [...without].map(([reason, own]) => ({ reason, eyes: own })) };
}

function hoursOf(value: CellValue): number[] {
  const written = value === null ? [] : typeof value === "object" ? value : [String(value)];
  const hours = written.map(Number).filter((hour) => hour >= 1 && hour <= 12);
  return [...new Set(hours)].sort((a, b) => a - b);
}

function whyNoPlace(eye: {
  readonly hours: readonly number[];
  readonly side: CellValue;
  readonly types: CellValue;
}): string | undefined {
  if (eye.hours.length === 0) {
    const none = String(eye.types) === "none found";
    return none ? "no break was found" : "the place of the breaks is not recorded";
  }
  if (eye.side !== "right" && eye.side !== "left") return "which eye is not recorded";
  return undefined;
}
