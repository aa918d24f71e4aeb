import type { EyeBefore } from "./eye-before.ts";
import type { Random } from "./random.ts";

/** How the unit writes acuity, with the logMAR each stands for here; nearest taken. */
const written: readonly (readonly [logMar: number, text: string])[] = [
  [-0.08, "6/5"],
  [0, "6/6"],
  [0.1, "6/7.5"],
  [0.18, "6/9"],
  [0.3, "6/12"],
  [0.48, "6/18"],
  [0.6, "6/24"],
  [0.78, "6/36"],
  [1, "6/60"],
  [1.3, "3/60"],
  [1.9, "CF"],
  [2.3, "HM"],
  [2.75, "LP"],
  [3.4, "NLP"],
];

/** logMAR as the unit writes it: a Snellen fraction at 6 m, or CF, HM, LP, NLP. */
export function writeAcuity(logMar: number): string {
  const nearest = written.reduce((best, line) =>
    Math.abs(line[0] - logMar) < Math.abs(best[0] - logMar) ? line : best,
  );
  return nearest[1];
}

type SeenBefore = Pick<
  EyeBefore,
  "macula" | "maculaOffDays" | "vitreousHaemorrhage" | "age" | "lens"
>;

/** logMAR before surgery: good while the macula is on, counting fingers once it is off. */
export function drawAcuityBefore(random: Random, eye: SeenBefore): number {
  const haze = (eye.vitreousHaemorrhage ? 0.25 : 0) + cataractHaze(eye);
  if (eye.macula === "on") return Math.max(-0.08, random.normal(0.08, 0.12) + haze);
  if (eye.macula === "split") return Math.max(0, random.normal(0.55, 0.3) + haze);
  const weeks = Math.min(eye.maculaOffDays ?? 0, 60) / 7;
  return Math.min(2.8, Math.max(0.3, random.normal(1.55, 0.5) + 0.03 * weeks + haze / 2));
}

function cataractHaze({ lens, age }: Pick<SeenBefore, "lens" | "age">): number {
  return lens === "phakic" && age > 60 ? 0.012 * (age - 60) : 0;
}

/** What an operation left behind, as far as acuity goes. */
export interface AcuityCourse {
  readonly eye: EyeBefore;
  readonly detached: boolean;
  readonly underOil: boolean;
  readonly operationNumber: number;
}

/** logMAR after: the macula's days off set what comes back; oil, scars and repeats cost more. */
export function drawAcuityAfter(random: Random, course: AcuityCourse): number {
  const { eye } = course;
  if (course.detached) return drawDetached(random);
  const days = Math.min(eye.maculaOffDays ?? 0, 42);
  const macular = eye.macula === "on" ? 0.06 : eye.macula === "split" ? 0.16 : 0.24 + 0.013 * days;
  const cost =
    (eye.pvr.grade === "C" ? 0.3 : 0) +
    (eye.kind === "macular hole" ? 0.4 : 0) +
    (course.underOil ? 0.3 : 0) +
    0.14 * (course.operationNumber - 1);
  const spread = eye.macula === "on" ? 0.11 : 0.18;
  return Math.min(2.8, Math.max(-0.08, random.normal(macular + cost, spread)));
}

/** Two in three redetachments have taken the macula off again. */
function drawDetached(random: Random): number {
  const off = random.chance(0.66);
  return off ? Math.max(1, random.normal(1.9, 0.35)) : Math.max(0.15, random.normal(0.5, 0.2));
}
