import { wholeYearsBetween } from "../src/cases/calendar-day.ts";
import { drawAcuityBefore } from "./acuity.ts";
import { drawBreaks } from "./breaks.ts";
import { type EyeBefore, type Pvr, pvrOfGrade } from "./eye-before.ts";
import type { FollowedOperation } from "./operation.ts";
import type { Random } from "./random.ts";
import { hasBuckle, hasVitrectomy, type Technique } from "./technique-details.ts";

/**
 * What is done to the eye, as found on the day, when a repair has failed: common practice, no
 * source for the shares.
 */
export function chooseReoperation(
  random: Random,
  failed: FollowedOperation,
  eye: EyeBefore,
): Technique {
  const scarred = eye.pvr.grade === "C" || failed.outcome.causes.includes("PVR");
  if (scarred || failed.details.tamponade === "silicone oil") {
    return random.weighted<Technique>([
      ["vitrectomy", 80],
      ["vitrectomy with buckle", 20],
    ]);
  }
  const small = eye.macula === "on" && eye.clockHoursDetached <= 3;
  const gas = !eye.gasUnsuitable && eye.clockHoursDetached <= 6 && failed.eye.kind !== "giant tear";
  const simple: readonly (readonly [Technique, number])[] = [
    ["gas injection", gas ? 16 : 0],
    ["laser or cryo alone", small ? 16 : 0],
  ];
  return random.weighted<Technique>([...simple, ...larger(failed, eye)]);
}

function larger(
  { technique, outcome }: FollowedOperation,
  eye: EyeBefore,
): readonly (readonly [Technique, number])[] {
  const buckleAtFault = outcome.causes.some((cause) => cause.startsWith("buckle"));
  if (hasBuckle(technique) && !hasVitrectomy(technique)) {
    return [
      ["vitrectomy", buckleAtFault ? 34 : 60],
      ["buckle revision", buckleAtFault ? 60 : 16],
    ];
  }
  return [
    ["vitrectomy", 66],
    ["vitrectomy with buckle", hasBuckle(technique) ? 0 : 16],
    ["scleral buckle", eye.previousVitrectomy || eye.breaks.posterior ? 0 : 34],
  ];
}

/** The eye on the day of a later operation for its detachment. */
export function eyeAtReoperation(
  random: Random,
  failed: FollowedOperation,
  day: number,
): EyeBefore {
  const before = eyeLater(failed, day);
  const { outcome } = failed;
  const symptomDays = Math.max(1, day - (outcome.redetached ?? failed.day)) + random.whole(0, 3);
  const clockHoursDetached = Math.max(1, Math.min(12, Math.round(random.normal(4.4, 2.2))));
  const macula = maculaNow(random, failed, clockHoursDetached);
  const maculaOffDays = macula === "off" ? Math.max(1, Math.round(symptomDays * 0.7)) : null;
  const vitreousHaemorrhage = random.chance(0.05);
  return {
    ...before,
    ...{ symptomDays, clockHoursDetached, macula, maculaOffDays, vitreousHaemorrhage },
    mediaOpacity: random.chance(0.04),
    breaks: breaksNow(random, failed),
    pvr: scarringNow(random, failed),
    acuity:
      outcome.acuity?.logMar ??
      0.1 + drawAcuityBefore(random, { ...before, macula, maculaOffDays, vitreousHaemorrhage }),
  };
}

/** In keeping with the acuity found at the redetachment, where it was measured. */
function maculaNow(
  random: Random,
  { outcome }: FollowedOperation,
  clockHours: number,
): EyeBefore["macula"] {
  if (outcome.acuity !== null) return outcome.acuity.logMar >= 1 ? "off" : "on";
  return random.weighted<EyeBefore["macula"]>([
    ["off", clockHours],
    ["split", 0.7],
    ["on", 5],
  ]);
}

/** The eye, flat under oil, on the day the oil comes out. */
export function eyeAtOilRemoval(random: Random, filled: FollowedOperation, day: number): EyeBefore {
  const measured = filled.outcome.acuity?.logMar ?? Math.max(0.5, random.normal(0.9, 0.3));
  return { ...eyeLater(filled, day), acuity: measured };
}

/** What the earlier operation itself has changed. */
function eyeLater({ eye, patient, technique, details }: FollowedOperation, day: number): EyeBefore {
  const frozen = details.retinopexy === "cryotherapy" || details.retinopexy === "both";
  return {
    ...eye,
    age: wholeYearsBetween(patient.born, day),
    lens: details.lensRemoved ? "pseudophakic" : eye.lens,
    refraction: details.lensRemoved ? null : eye.refraction,
    previousCryotherapy: eye.previousCryotherapy || frozen,
    previousVitrectomy: eye.previousVitrectomy || hasVitrectomy(technique),
    pvd: hasVitrectomy(technique) ? "present" : eye.pvd,
  };
}

function breaksNow(random: Random, { eye, outcome }: FollowedOperation): EyeBefore["breaks"] {
  const { causes } = outcome;
  if (causes.includes("new break") || causes.includes("missed break")) {
    const kind = random.chance(0.6) ? "horseshoe tear" : "round hole";
    return drawBreaks(random, kind, eye.side);
  }
  return causes.includes("unknown") ? drawBreaks(random, "none found", eye.side) : eye.breaks;
}

/** After a failure from PVR the grade is C, seldom still B; else what it was. */
function scarringNow(random: Random, { eye, outcome }: FollowedOperation): Pvr {
  if (!outcome.causes.includes("PVR") || eye.pvr.grade === "C") return eye.pvr;
  return pvrOfGrade(random, random.chance(0.82) ? "C" : "B");
}
