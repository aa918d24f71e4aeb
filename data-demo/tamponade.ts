import { isInferior } from "./breaks.ts";
import type { EyeBefore } from "./eye-before.ts";
import type { Random } from "./random.ts";
import type { Technique } from "./technique-details.ts";

export type Tamponade = "none" | "air" | "SF6" | "C2F6" | "C3F8" | "silicone oil";

/** What is left in the eye. Oil after giant tears and PVR C, or where gas is ruled out. */
export function chooseTamponade(random: Random, technique: Technique, eye: EyeBefore): Tamponade {
  switch (technique) {
    case "laser or cryo alone":
    case "oil removal":
      return "none";
    case "scleral buckle":
    case "buckle revision":
      return eye.gasUnsuitable ? "none" : afterBuckle(random);
    case "pneumatic retinopexy":
    case "gas injection":
      return random.chance(0.7) ? "SF6" : "C3F8";
    case "vitrectomy":
    case "vitrectomy with buckle":
      return eye.gasUnsuitable ? "silicone oil" : afterVitrectomy(random, eye);
  }
}

function afterBuckle(random: Random): Tamponade {
  return random.weighted<Tamponade>([
    ["none", 64],
    ["air", 12],
    ["SF6", 24],
  ]);
}

function afterVitrectomy(random: Random, eye: EyeBefore): Tamponade {
  if (eye.kind === "giant tear") return random.chance(0.6) ? "silicone oil" : "C3F8";
  if (eye.pvr.grade === "C") return random.chance(0.62) ? "silicone oil" : "C3F8";
  const below = eye.breaks.clockHours.some(isInferior);
  return random.weighted<Tamponade>([
    ["air", below ? 0 : 5],
    ["SF6", below ? 34 : 62],
    ["C2F6", 18],
    ["C3F8", below ? 46 : 15],
    ["silicone oil", 0.6],
  ]);
}

/** Pure gas as a small bubble outside vitrectomy, a mixture that does not expand after one. */
export function chooseGasPercent(
  random: Random,
  technique: Technique,
  tamponade: Tamponade,
): number | null {
  if (tamponade === "none" || tamponade === "air" || tamponade === "silicone oil") return null;
  if (technique !== "vitrectomy" && technique !== "vitrectomy with buckle") return 100;
  if (tamponade === "SF6") return random.chance(0.6) ? 20 : 25;
  if (tamponade === "C2F6") return random.chance(0.7) ? 16 : 18;
  return random.chance(0.6) ? 14 : 12;
}
