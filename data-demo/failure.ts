import type { EyeBefore } from "./eye-before.ts";
import type { Random } from "./random.ts";
import {
  baselineLogOdds,
  type FailureKind,
  featureOddsRatios,
  type PrimaryTechnique,
  techniqueOddsRatios,
} from "./truth.ts";

/** An eye's risk factors, as the true model knows them. */
export interface RiskFeatures {
  readonly tear: boolean;
  readonly twoQuadrants: boolean;
  readonly threeQuadrants: boolean;
  readonly pvrB: boolean;
  readonly pvrC: boolean;
  readonly haemorrhage: boolean;
  readonly currentSmoker: boolean;
  readonly aphakia: boolean;
  readonly giantTear: boolean;
  readonly choroidals: boolean;
  readonly uveitis: boolean;
}

export function riskFeatures(eye: EyeBefore, smoker: string): RiskFeatures {
  return {
    tear: eye.kind === "horseshoe tear" || eye.kind === "giant tear",
    twoQuadrants: eye.clockHoursDetached > 3,
    threeQuadrants: eye.clockHoursDetached > 6,
    pvrB: eye.pvr.grade === "B",
    pvrC: eye.pvr.grade === "C",
    haemorrhage: eye.vitreousHaemorrhage,
    currentSmoker: smoker === "current",
    aphakia: eye.lens === "aphakic",
    giantTear: eye.kind === "giant tear",
    choroidals: eye.choroidalDetachment,
    uveitis: eye.uveitis,
  };
}

export type FailureProbabilities = Readonly<Record<FailureKind, number>>;

/**
 * Probability of each kind of failure of a primary repair: a multinomial logit against staying
 * attached, `p(kind) = exp(score of kind) / (1 + sum of exp(scores))`.
 */
export function failureProbabilities(
  features: RiskFeatures,
  technique: PrimaryTechnique,
  operatorLogOdds: number,
): FailureProbabilities {
  const shared = Math.log(techniqueOddsRatios[technique]) + operatorLogOdds;
  const odds = (kind: FailureKind): number =>
    Math.exp(baselineLogOdds[kind] + shared) * featureOdds(features, kind);
  const [pvr, other, never] = [odds("PVR"), odds("other"), odds("never attached")];
  const total = 1 + pvr + other + never;
  return { PVR: pvr / total, other: other / total, "never attached": never / total };
}

function featureOdds(features: RiskFeatures, kind: FailureKind): number {
  const names = Object.keys(features) as (keyof RiskFeatures)[];
  return names.reduce(
    (odds, name) => odds * (features[name] ? featureOddsRatios[kind][name] : 1),
    1,
  );
}

/** What will come of a repair, or null where it holds. */
export function drawFailure(
  random: Random,
  probabilities: FailureProbabilities,
): FailureKind | null {
  const { PVR, other, "never attached": never } = probabilities;
  return random.weighted<FailureKind | null>([
    ["PVR", PVR],
    ["other", other],
    ["never attached", never],
    [null, 1 - PVR - other - never],
  ]);
}
