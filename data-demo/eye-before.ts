import { wholeYearsBetween } from "../src/cases/calendar-day.ts";
import { drawAcuityBefore } from "./acuity.ts";
import { type Breaks, drawBreaks } from "./breaks.ts";
import type { DetachmentKind, Patient, Side } from "./patient.ts";
import type { Random } from "./random.ts";

export type Lens = "phakic" | "pseudophakic" | "aphakic";
export type PvrGrade = "none" | "A" | "B" | "C";

/** What the surgeon finds before an operation. */
export interface EyeBefore {
  readonly kind: DetachmentKind;
  readonly side: Side;
  readonly age: number;
  readonly lens: Lens;
  readonly mediaOpacity: boolean;
  readonly pvd: "absent" | "partial" | "present";
  readonly symptomDays: number;
  readonly macula: "on" | "split" | "off";
  readonly maculaOffDays: number | null;
  readonly clockHoursDetached: number;
  readonly breaks: Breaks;
  readonly lattice: "none" | "present" | "extensive";
  readonly vitreousHaemorrhage: boolean;
  readonly pvr: Pvr;
  readonly choroidalDetachment: boolean;
  readonly uveitis: boolean;
  readonly previousCryotherapy: boolean;
  readonly previousVitrectomy: boolean;
  readonly trauma: boolean;
  readonly hypotony: boolean;
  readonly axialLength: number;
  /** Spherical equivalent; null in an aphakic eye, where it says nothing of the eye's length. */
  readonly refraction: number | null;
  readonly gasUnsuitable: boolean;
  /** logMAR. */
  readonly acuity: number;
}

export interface Pvr {
  readonly grade: PvrGrade;
  readonly clockHours: number | null;
  readonly zone: "anterior" | "posterior" | "both" | null;
}

/** Means of normal draws: clock hours detached, axial length, median of the symptom days. */
const shapes: ReadonlyMap<
  DetachmentKind,
  { readonly hours: number; readonly axial: number; readonly symptomDays: number }
> = new Map([
  ["horseshoe tear", { hours: 4.7, axial: 24.6, symptomDays: 6 }],
  ["round hole", { hours: 3.6, axial: 26.1, symptomDays: 28 }],
  ["dialysis", { hours: 3.8, axial: 24, symptomDays: 40 }],
  ["giant tear", { hours: 7.5, axial: 26.3, symptomDays: 4 }],
  ["macular hole", { hours: 6, axial: 28.6, symptomDays: 20 }],
  ["none found", { hours: 5, axial: 24.3, symptomDays: 9 }],
] as const);

/** The eye on the day of its primary repair. */
export function drawEyeBefore(
  random: Random,
  patient: Patient,
  { side, day }: Patient["primaries"][number],
): EyeBefore {
  const { kind } = patient;
  const age = wholeYearsBetween(patient.born, day);
  const shape = shapes.get(kind)!;
  const lens = drawLens(random, kind, age);
  const symptomDays = Math.min(
    400,
    Math.round(shape.symptomDays * Math.exp(random.normal(0, 0.9))),
  );
  const clockHoursDetached = Math.max(1, Math.min(12, Math.round(random.normal(shape.hours, 2.1))));
  const vitreousHaemorrhage = random.chance(haemorrhageChance(kind));
  const pvr = drawPvr(random, kind, symptomDays);
  const choroidalDetachment = random.chance(pvr.grade === "C" ? 0.12 : 0.012);
  const macula = drawMacula(random, kind, clockHoursDetached);
  const maculaOffDays = macula === "off" ? daysOff(random, symptomDays) : null;
  const axialLength = Math.round(random.normal(shape.axial, 1.2) * 100) / 100;
  return {
    ...{ kind, side, age, lens, symptomDays, clockHoursDetached, vitreousHaemorrhage, pvr },
    ...{ choroidalDetachment, macula, maculaOffDays, axialLength },
    mediaOpacity: random.chance(opacityChance(vitreousHaemorrhage, lens, age)),
    pvd: drawPvd(random, kind),
    breaks: drawBreaks(random, kind, side),
    lattice: drawLattice(random, kind),
    uveitis: random.chance(0.008),
    previousCryotherapy: random.chance(0.03),
    previousVitrectomy: lens !== "phakic" && random.chance(0.05),
    trauma: random.chance(kind === "dialysis" ? 0.55 : kind === "giant tear" ? 0.2 : 0.015),
    hypotony: random.chance(choroidalDetachment ? 0.6 : 0.004),
    refraction: drawRefraction(random, lens, axialLength),
    gasUnsuitable: random.chance(0.04),
    acuity: drawAcuityBefore(random, { macula, maculaOffDays, vitreousHaemorrhage, age, lens }),
  };
}

function drawLens(random: Random, kind: DetachmentKind, age: number): Lens {
  if (random.chance(0.01)) return "aphakic";
  const operated = age < 45 ? 0.02 : age < 55 ? 0.12 : age < 65 ? 0.28 : age < 75 ? 0.5 : 0.68;
  const unseenBreak = kind === "none found" ? 0.2 : 0;
  return random.chance(operated + unseenBreak) ? "pseudophakic" : "phakic";
}

function haemorrhageChance(kind: DetachmentKind): number {
  if (kind === "horseshoe tear") return 0.19;
  return kind === "giant tear" ? 0.25 : kind === "none found" ? 0.08 : 0.02;
}

function opacityChance(haemorrhage: boolean, lens: Lens, age: number): number {
  if (haemorrhage) return 0.3;
  return lens === "phakic" && age > 68 ? 0.1 : 0.015;
}

function drawPvd(random: Random, kind: DetachmentKind): EyeBefore["pvd"] {
  const never = kind === "round hole" || kind === "dialysis";
  const weights = never ? ([88, 8, 4] as const) : ([1, 8, 91] as const);
  return random.weighted([
    ["absent", weights[0]],
    ["partial", weights[1]],
    ["present", weights[2]],
  ]);
}

function drawLattice(random: Random, kind: DetachmentKind): EyeBefore["lattice"] {
  const hole = kind === "round hole";
  return random.weighted([
    ["none", hole ? 25 : 76],
    ["present", hole ? 58 : 20],
    ["extensive", hole ? 17 : 4],
  ]);
}

/** The wider the detachment, the likelier the macula is off; holes below creep up slowly. */
function drawMacula(random: Random, kind: DetachmentKind, hours: number): EyeBefore["macula"] {
  if (kind === "macular hole") return "off";
  const creeping = kind === "round hole" || kind === "dialysis" ? -0.5 : 0;
  const off = 1 / (1 + Math.exp(-(0.5 * (hours - 4.9) + creeping)));
  return random.weighted([
    ["off", off * 0.94],
    ["split", 0.06],
    ["on", (1 - off) * 0.94],
  ]);
}

function daysOff(random: Random, symptomDays: number): number {
  return Math.max(1, Math.round(symptomDays * (0.25 + 0.6 * random.uniform())));
}

/** Scarring before surgery grows with the days that passed. */
function drawPvr(random: Random, kind: DetachmentKind, symptomDays: number): Pvr {
  const slow = kind === "round hole" || kind === "dialysis";
  const late = symptomDays > 21 && !slow;
  const grade = random.weighted<PvrGrade>([
    ["none", late ? 56 : 81],
    ["A", late ? 16 : 10],
    ["B", late ? 14 : 6],
    ["C", slow ? 1.5 : kind === "giant tear" ? 12 : late ? 14 : 3.5],
  ]);
  return pvrOfGrade(random, grade);
}

/** Grade C with its extent and zone; the other grades have neither. */
export function pvrOfGrade(random: Random, grade: PvrGrade): Pvr {
  if (grade !== "C") return { grade, clockHours: null, zone: null };
  const clockHours = Math.min(12, 1 + random.whole(0, 3) + random.whole(0, 3));
  const zone = random.weighted<Exclude<Pvr["zone"], null>>([
    ["posterior", 55],
    ["anterior", 25],
    ["both", 20],
  ]);
  return { grade, clockHours, zone };
}

/** About 2.6 dioptre a millimetre from a length of 23.6 mm; a lens implant takes it away. */
function drawRefraction(random: Random, lens: Lens, axialLength: number): number | null {
  if (lens === "aphakic") return null;
  const natural = (23.6 - axialLength) * 2.6 + random.normal(0, 0.8);
  const implanted = random.normal(-0.6, 0.8);
  return Math.round((lens === "phakic" ? natural : implanted) * 4) / 4;
}
