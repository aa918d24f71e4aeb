import { isInferior } from "./breaks.ts";
import type { EyeBefore } from "./eye-before.ts";
import type { Random } from "./random.ts";
import type { PrimaryTechnique } from "./truth.ts";

/**
 * The technique of a primary repair, drawn in proportion to the exponential of how well it suits
 * the eye. Who suits what is common practice, no source; nothing here knows how the eye will do.
 */
export function chooseTechnique(random: Random, eye: EyeBefore): PrimaryTechnique {
  return random.weighted<PrimaryTechnique>([
    ["scleral buckle", Math.exp(suitsBuckle(eye))],
    ["vitrectomy", Math.exp(suitsVitrectomy(eye))],
    ["vitrectomy with buckle", Math.exp(suitsBoth(eye))],
    ["pneumatic retinopexy", suitsGasAlone(eye) ? Math.exp(-0.15) : 0],
    ["laser or cryo alone", suitsLaserAlone(eye) ? Math.exp(-0.9) : 0],
  ]);
}

function suitsBuckle(eye: EyeBefore): number {
  return sum([
    [0.62, true],
    [2.2, eye.pvd === "absent"],
    [1.2, eye.kind === "dialysis"],
    [0.5, eye.age < 50],
    [-1.5, eye.lens !== "phakic"],
    [0.8, eye.gasUnsuitable],
    [0.6, eye.lattice === "extensive"],
    [-3, eye.mediaOpacity],
    [-0.7, eye.vitreousHaemorrhage],
    [-4, eye.breaks.posterior],
    [-3, eye.pvr.grade === "C"],
    [-4, eye.kind === "giant tear"],
    [-1, eye.kind === "none found"],
    [-0.5, eye.clockHoursDetached > 6],
  ]);
}

function suitsVitrectomy(eye: EyeBefore): number {
  return sum([
    [0.35, true],
    [0.6, eye.lens !== "phakic"],
    [1, eye.mediaOpacity],
    [0.7, eye.breaks.posterior],
    [1.2, eye.kind === "giant tear"],
    [0.5, eye.kind === "none found"],
    [0.5, eye.pvr.grade === "C"],
  ]);
}

function suitsBoth(eye: EyeBefore): number {
  return sum([
    [-2, true],
    [0.8, eye.breaks.clockHours.some(isInferior) && eye.pvd === "present"],
    [0.7, eye.pvr.grade === "B"],
    [1.5, eye.pvr.grade === "C"],
    [0.8, eye.kind === "giant tear"],
    [0.4, eye.lens !== "phakic"],
    [0.6, eye.clockHoursDetached > 6],
  ]);
}

/** Breaks above, within one clock hour, clear media, no more than minimal scarring. */
function suitsGasAlone(eye: EyeBefore): boolean {
  const { clockHours, count } = eye.breaks;
  const above = clockHours.length > 0 && clockHours.every((hour) => hour >= 10 || hour <= 2);
  return (
    eye.kind === "horseshoe tear" &&
    above &&
    count <= 2 &&
    clockHours.length === 1 &&
    eye.lens === "phakic" &&
    !eye.mediaOpacity &&
    !eye.breaks.posterior &&
    !eye.gasUnsuitable &&
    (eye.pvr.grade === "none" || eye.pvr.grade === "A")
  );
}

/** A shallow detachment of one quadrant with the macula on can be walled off. */
function suitsLaserAlone(eye: EyeBefore): boolean {
  return (
    eye.macula === "on" &&
    eye.clockHoursDetached <= 2 &&
    (eye.kind === "horseshoe tear" || eye.kind === "round hole") &&
    !eye.mediaOpacity &&
    eye.pvr.grade === "none"
  );
}

function sum(points: readonly (readonly [points: number, holds: boolean])[]): number {
  return points.reduce((total, [value, holds]) => total + (holds ? value : 0), 0);
}
