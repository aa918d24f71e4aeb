import type { EyeBefore } from "./eye-before.ts";
import type { Random } from "./random.ts";

export type Cause =
  | "PVR"
  | "new break"
  | "missed break"
  | "buckle position"
  | "buckle height"
  | "residual traction"
  | "macular hole"
  | "unknown";

export interface Failure {
  readonly kind: "PVR" | "other" | "never attached";
  /** Days from the operation; 0 where it never attached. */
  readonly day: number;
}

/** Weights of the causes that are not PVR, by how soon the eye failed. */
const weights = {
  early: { missed: 50, fresh: 12, traction: 8, unknown: 6, buckle: 40 },
  middle: { missed: 22, fresh: 42, traction: 18, unknown: 8, buckle: 26 },
  late: { missed: 3, fresh: 58, traction: 16, unknown: 12, buckle: 6 },
} as const;

/**
 * Why it failed, as the surgeon wrote it down. A missed break shows early, a new one at any time;
 * position and height of the buckle are causes only where there is one. Common practice, no source.
 */
export function drawCauses(
  random: Random,
  failure: Failure,
  { eye, buckled }: { readonly eye: EyeBefore; readonly buckled: boolean },
): readonly Cause[] {
  if (failure.kind === "PVR") return random.chance(0.07) ? ["PVR", "new break"] : ["PVR"];
  if (eye.kind === "macular hole" && random.chance(0.6)) return ["macular hole"];
  const weight =
    failure.day <= 28 ? weights.early : failure.day <= 91 ? weights.middle : weights.late;
  const buckle = buckled ? weight.buckle : 0;
  const cause = random.weighted<Cause>([
    ["missed break", weight.missed],
    ["new break", failure.day === 0 ? 0 : weight.fresh],
    ["residual traction", weight.traction],
    ["buckle position", buckle * 0.55],
    ["buckle height", buckle * 0.45],
    ["unknown", weight.unknown],
  ]);
  return [cause];
}
