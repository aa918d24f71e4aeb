import type { DetachmentKind, Side } from "./patient.ts";
import type { Random } from "./random.ts";

export interface Breaks {
  readonly types: readonly DetachmentKind[];
  readonly count: number;
  /** 1-12 as the surgeon faces the patient, in order; empty where none lies on the clock. */
  readonly clockHours: readonly number[];
  readonly posterior: boolean;
}

/**
 * Weight of each clock hour, 12 first, in a right eye (temporal at 9). Horseshoe tears favour the
 * superotemporal quadrant, round holes and dialyses the inferotemporal one: common practice, no
 * source.
 */
const hourWeights = {
  superior: [11, 10, 8, 4, 3, 3, 4, 5, 7, 9, 15, 16],
  inferior: [3, 3, 3, 4, 5, 6, 10, 18, 18, 9, 6, 4],
} as const;

const extentHours: ReadonlyMap<DetachmentKind, readonly [least: number, most: number]> = new Map([
  ["giant tear", [3, 5]],
  ["dialysis", [2, 3]],
] satisfies [DetachmentKind, [number, number]][]);

/** The breaks behind one detachment. */
export function drawBreaks(random: Random, kind: DetachmentKind, side: Side): Breaks {
  if (kind === "macular hole") return { types: [kind], count: 1, clockHours: [], posterior: true };
  if (kind === "none found") return { types: [kind], count: 0, clockHours: [], posterior: false };
  const extent = extentHours.get(kind);
  if (extent !== undefined) {
    const hours = neighbours(drawHour(random, kind, side), random.whole(...extent));
    return { types: [kind], count: 1, clockHours: hours, posterior: false };
  }
  return separateBreaks(random, kind, side);
}

function separateBreaks(random: Random, kind: DetachmentKind, side: Side): Breaks {
  let count = 1;
  while (count < 7 && random.chance(kind === "round hole" ? 0.5 : 0.34)) count++;
  const hours = Array.from({ length: count }, () => drawHour(random, kind, side));
  const alsoHoles = kind === "horseshoe tear" && count > 1 && random.chance(0.25);
  return {
    types: alsoHoles ? [kind, "round hole"] : [kind],
    count,
    clockHours: inOrder(hours),
    posterior: kind === "horseshoe tear" && random.chance(0.04),
  };
}

function drawHour(random: Random, kind: DetachmentKind, side: Side): number {
  const superior = kind === "horseshoe tear" || kind === "giant tear";
  const weights = superior ? hourWeights.superior : hourWeights.inferior;
  const hour = random.weighted(weights.map((weight, index) => [index, weight]));
  return onTheClock(side === "right" ? hour : -hour);
}

function neighbours(first: number, count: number): readonly number[] {
  return inOrder(Array.from({ length: count }, (_, step) => onTheClock(first + step)));
}

function onTheClock(hour: number): number {
  return ((hour + 23) % 12) + 1;
}

function inOrder(hours: readonly number[]): readonly number[] {
  return [...new Set(hours)].sort((a, b) => a - b);
}

/** From 4 to 8 o'clock: gravity keeps gas away from these. */
export function isInferior(hour: number): boolean {
  return hour >= 4 && hour <= 8;
}
