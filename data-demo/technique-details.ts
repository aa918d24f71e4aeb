import type { EyeBefore } from "./eye-before.ts";
import type { Random } from "./random.ts";
import { chooseGasPercent, chooseTamponade, type Tamponade } from "./tamponade.ts";
import type { PrimaryTechnique } from "./truth.ts";

export type Technique = PrimaryTechnique | "buckle revision" | "gas injection" | "oil removal";

/** What was done at one operation. */
export interface TechniqueDetails {
  readonly buckleElements: readonly string[];
  readonly retinopexy: "cryotherapy" | "laser" | "both" | "none";
  readonly subretinalDrainage: boolean;
  readonly heavyLiquid: boolean;
  readonly vitreousBaseTrim: boolean;
  readonly membranePeel: boolean;
  readonly retinectomy: boolean;
  readonly lensRemoved: boolean;
  readonly tamponade: Tamponade;
  readonly gasPercent: number | null;
  readonly complications: readonly string[];
}

export function drawTechniqueDetails(
  random: Random,
  technique: Technique,
  eye: EyeBefore,
): TechniqueDetails {
  const tamponade = chooseTamponade(random, technique, eye);
  const common = {
    buckleElements: chooseElements(random, technique, eye),
    retinopexy: chooseRetinopexy(random, technique),
    tamponade,
    gasPercent: chooseGasPercent(random, technique, tamponade),
    complications: drawComplications(random, technique),
  };
  return hasVitrectomy(technique)
    ? { ...common, ...vitrectomySteps(random, eye) }
    : {
        ...common,
        ...withoutVitrectomy,
        subretinalDrainage:
          technique === "scleral buckle" && random.chance(eye.clockHoursDetached > 4 ? 0.55 : 0.25),
      };
}

export function hasBuckle(technique: Technique): boolean {
  return (
    technique === "scleral buckle" ||
    technique === "vitrectomy with buckle" ||
    technique === "buckle revision"
  );
}

export function hasVitrectomy(technique: Technique): boolean {
  return technique === "vitrectomy" || technique === "vitrectomy with buckle";
}

const withoutVitrectomy = {
  heavyLiquid: false,
  vitreousBaseTrim: false,
  membranePeel: false,
  retinectomy: false,
  lensRemoved: false,
} as const;

function vitrectomySteps(random: Random, eye: EyeBefore) {
  const scarred = eye.pvr.grade === "C";
  return {
    subretinalDrainage: random.chance(0.7),
    heavyLiquid: random.chance(eye.kind === "giant tear" ? 0.95 : scarred ? 0.6 : 0.18),
    vitreousBaseTrim: random.chance(0.86),
    membranePeel: random.chance(scarred ? 0.92 : eye.pvr.grade === "B" ? 0.25 : 0.03),
    retinectomy: scarred && random.chance(0.14),
    lensRemoved: eye.lens === "phakic" && random.chance(eye.age > 60 ? 0.22 : 0.03),
  };
}

function chooseElements(random: Random, technique: Technique, eye: EyeBefore): readonly string[] {
  if (technique === "vitrectomy with buckle") return ["encircling"];
  if (!hasBuckle(technique)) return [];
  const wide = eye.breaks.clockHours.length > 2 || eye.lattice === "extensive";
  return random.weighted<readonly string[]>([
    [["segmental"], wide ? 45 : 76],
    [["radial"], eye.kind === "horseshoe tear" && !wide ? 14 : 0],
    [["encircling"], wide ? 28 : 6],
    [["segmental", "encircling"], wide ? 27 : 4],
  ]);
}

function chooseRetinopexy(random: Random, technique: Technique): TechniqueDetails["retinopexy"] {
  if (technique === "oil removal") return random.chance(0.15) ? "laser" : "none";
  const outside = !hasVitrectomy(technique) && technique !== "laser or cryo alone";
  return random.weighted<TechniqueDetails["retinopexy"]>([
    ["cryotherapy", outside ? 84 : 34],
    ["laser", outside ? 10 : 54],
    ["both", outside ? 2 : 12],
    ["none", technique === "gas injection" || technique === "buckle revision" ? 60 : 0],
  ]);
}

function drawComplications(random: Random, technique: Technique): readonly string[] {
  const complication = random.weighted<string>([
    ["none", 100],
    ["iatrogenic break", hasVitrectomy(technique) ? 6 : 0],
    ["haemorrhage", technique === "scleral buckle" ? 3 : 1],
    ["lens touch", hasVitrectomy(technique) ? 1.5 : 0],
    ["retinal incarceration", technique === "scleral buckle" ? 1 : 0.2],
    ["other", 1],
  ]);
  return [complication];
}
