import {
  type FunnelLimits,
  funnelPosition,
  proportionFunnelLimits,
  ratioFunnelLimits,
} from "../../../statistics/funnel-limits.ts";
import {
  type Overdispersion,
  overdispersion,
  proportionErrors,
  ratioErrors,
  widenedFunnelLimits,
} from "../../../statistics/overdispersion.ts";
import { observedAgainstRisks } from "../../../statistics/poisson-binomial.ts";
import type { Group } from "../../answering/grouping.ts";
import type { ExpectedModel } from "../expected-model-cautions.ts";
import type { RisksOf } from "../expected-risks.ts";
import { among, type JudgedEyes } from "../judged-eyes.ts";

/** 95% and 99.8%, as of the limits of an alert and of an alarm (Spiegelhalter 2005). */
export const funnelLevels = [0.95, 0.998] as const;

export const funnelLimitKinds = ["exact", "widened"] as const;
export type FunnelLimitKind = (typeof funnelLimitKinds)[number];

/** What the funnel is around: a share, or 1 for observed over expected. */
export interface FunnelDesign {
  readonly judged: JudgedEyes;
  readonly scale: "share" | "ratio";
  readonly target: number;
  /** The target is the rate of these very eyes. */
  readonly isOwnRate: boolean;
  /** For ratios. */
  readonly risksOf: RisksOf;
  readonly limits: FunnelLimitKind;
}

export interface FunnelUnit {
  readonly label: string;
  readonly judged: JudgedEyes;
  /** Eyes counted: known ones, of a ratio those that have a risk. */
  readonly eyes: readonly number[];
  readonly failedEyes: readonly number[];
  /** Eyes, or expected failures. */
  readonly size: number;
  readonly value: number;
  /** The model that expects; null where none does. */
  readonly model: ExpectedModel | null;
  /** The exact two-sided test of the target. */
  readonly p: number;
  /** By level: 95%, 99.8%. */
  readonly limits: readonly FunnelLimits[];
  readonly positions: readonly ReturnType<typeof funnelPosition>[];
}

export interface FunnelUnits {
  readonly units: readonly FunnelUnit[];
  /** People without an eye to count, or of whom nothing can be expected. */
  readonly without: readonly { readonly label: string; readonly why: string }[];
  readonly dispersion: Overdispersion | null;
  /** The limits at any size, by level. */
  readonly limitsAt: (size: number) => readonly FunnelLimits[];
  /** Eyes of several people as one unit; undefined where they have nothing to count. */
  readonly together: (group: Group) => FunnelUnit | undefined;
}

/** Each group's place in the funnel, with the dispersion of all. */
export function funnelUnits(groups: readonly Group[], design: FunnelDesign): FunnelUnits {
  const counts = groups.map((group) => countsOf(group, design));
  const placed = counts.flatMap((each) => ("why" in each ? [] : [each]));
  const without = counts.flatMap((each) => ("why" in each ? [each] : []));
  const dispersion = dispersionOf(placed, design);
  const limitsAt = (size: number): FunnelLimits[] =>
    funnelLevels.map((level) => limitsOf(size, level, { design, dispersion }));
  const place = (unit: Counts): FunnelUnit => {
    const limits = limitsAt(unit.size);
    return { ...unit, limits, positions: limits.map((each) => funnelPosition(unit.value, each)) };
  };
  const together = (group: Group): FunnelUnit | undefined => {
    const counted = countsOf(group, design);
    return "why" in counted ? undefined : place(counted);
  };
  return { units: placed.map(place), without, dispersion, limitsAt, together };
}

type Counts = Omit<FunnelUnit, "limits" | "positions">;

function countsOf(
  { label, eyes }: Group,
  design: FunnelDesign,
): Counts | { readonly label: string; readonly why: string } {
  const judged = among(design.judged, eyes);
  const { known, hasFailed } = judged;
  if (known.length === 0) return { label, why: "no eye whose outcome is known" };
  const found =
    design.scale === "share"
      ? { eyes: known, risks: known.map(() => design.target), model: null }
      : design.risksOf(known);
  if ("cannot" in found) return { label, why: found.cannot };
  if (found.eyes.length === 0) return { label, why: "no eye has a risk" };
  const failedEyes = found.eyes.filter(hasFailed);
  const size =
    design.scale === "share" ? known.length : found.risks.reduce((sum, risk) => sum + risk, 0);
  const { pTwoSided } = observedAgainstRisks(failedEyes.length, found.risks);
  const value = failedEyes.length / size;
  const { eyes: counted, model } = found;
  return { label, judged, eyes: counted, failedEyes, size, value, model, p: pTwoSided };
}

function dispersionOf(units: readonly Counts[], design: FunnelDesign): Overdispersion | null {
  const { target, scale, isOwnRate } = design;
  if (units.length < 2) return null;
  const sizes = units.map(({ size }) => size);
  const standardErrors = scale === "share" ? proportionErrors(target, sizes) : ratioErrors(sizes);
  const values = units.map(({ value }) => value);
  return overdispersion({ values, standardErrors, target }, { isEstimated: isOwnRate });
}

function limitsOf(
  size: number,
  level: number,
  at: { readonly design: FunnelDesign; readonly dispersion: Overdispersion | null },
): FunnelLimits {
  const { target, scale, limits } = at.design;
  const isShare = scale === "share";
  if (limits === "widened" && at.dispersion !== null) {
    const [standardError = 0] = isShare ? proportionErrors(target, [size]) : ratioErrors([size]);
    const { tauSquared } = at.dispersion;
    const most = isShare ? 1 : Number.POSITIVE_INFINITY;
    return widenedFunnelLimits({ target, standardError, by: { tauSquared }, most }, level);
  }
  const exact = isShare
    ? proportionFunnelLimits(target, size, level)
    : ratioFunnelLimits(size, level);
  if (exact === null) throw new Error("a funnel has no limits at no size");
  return exact;
}
