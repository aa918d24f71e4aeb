import { binomialCounts } from "../../../statistics/count-distributions.ts";
import { countTest } from "../../../statistics/count-test.ts";
import {
  type FunnelLimits,
  funnelPosition,
  proportionFunnelLimits,
} from "../../../statistics/funnel-limits.ts";
import {
  type Overdispersion,
  overdispersion,
  proportionErrors,
  widenedFunnelLimits,
} from "../../../statistics/overdispersion.ts";
import { type FunnelLimitKind, funnelLevels } from "../../people/funnel/funnel-units.ts";
import type { DepartmentPart } from "../departments.ts";
import { exactCounts, rateCorners } from "../pooled-counts.ts";

/** A department's place in the funnel: failures of those known. */
export interface PlacedDepartment {
  /** Its name, or "no. 3". */
  readonly name: string;
  readonly failed: number;
  readonly total: number;
  /** The exact two-sided test of the target. */
  readonly p: number;
  /** By level: 95%, 99.8%. */
  readonly limits: readonly FunnelLimits[];
  readonly positions: readonly ReturnType<typeof funnelPosition>[];
}

export interface PlacedDepartments {
  readonly placed: readonly PlacedDepartment[];
  /** Those that withhold their counts: in the table with their bounds, and not judged. */
  readonly bounded: readonly DepartmentPart[];
  /** All together, of those placed. */
  readonly together: { readonly failed: number; readonly total: number };
  readonly target: number;
  readonly isOwnRate: boolean;
  readonly limits: FunnelLimitKind;
  readonly areNamed: boolean;
  readonly dispersion: Overdispersion | null;
  /** The limits at any number of eyes, by level. */
  readonly limitsAt: (total: number) => readonly FunnelLimits[];
}

/** Departments by their size, or named in their own order; the target is the rate of all unless given. */
export function placedDepartments(
  parts: readonly DepartmentPart[],
  asked: {
    readonly target: number | undefined;
    readonly limits: FunnelLimitKind;
    readonly areNamed: boolean;
  },
): PlacedDepartments {
  const exact = parts.flatMap((part) => {
    const counts = exactCounts(rateCorners([part]));
    return counts === undefined || counts.total === 0 ? [] : [{ ...counts, unit: part.file.unit }];
  });
  const sum = (name: "failed" | "total") => exact.reduce((all, each) => all + each[name], 0);
  const together = { failed: sum("failed"), total: sum("total") };
  const target = asked.target ?? together.failed / Math.max(1, together.total);
  const isOwnRate = asked.target === undefined;
  const dispersion = dispersionOf(exact, { target, isOwnRate });
  const limitsAt = (total: number) =>
    funnelLevels.flatMap((level) => limitsOf(total, level, { ...asked, target, dispersion }) ?? []);
  const ordered = asked.areNamed ? exact : [...exact].sort((a, b) => b.total - a.total);
  const placed = ordered.map(({ unit, failed, total }, at): PlacedDepartment => {
    const limits = limitsAt(total);
    const positions = limits.map((each) => funnelPosition(failed / total, each));
    const p = isRate(target) ? countTest(failed, binomialCounts(total, target)).pTwoSided : 1;
    return { name: asked.areNamed ? unit : `no. ${at + 1}`, failed, total, p, limits, positions };
  });
  const bounded = parts.filter((part) => exactCounts(rateCorners([part])) === undefined);
  return { ...asked, placed, bounded, together, target, isOwnRate, dispersion, limitsAt };
}

/** Whether limits can stand around it. */
export function isRate(target: number): boolean {
  return target > 0 && target < 1;
}

function dispersionOf(
  departments: readonly { readonly failed: number; readonly total: number }[],
  { target, isOwnRate }: { readonly target: number; readonly isOwnRate: boolean },
): Overdispersion | null {
  if (departments.length < 2 || !isRate(target)) return null;
  const values = departments.map(({ failed, total }) => failed / total);
  const sizes = departments.map(({ total }) => total);
  const standardErrors = proportionErrors(target, sizes);
  return overdispersion({ values, standardErrors, target }, { isEstimated: isOwnRate });
}

/** Exact, or widened by the variance between departments (Spiegelhalter 2005). */
function limitsOf(
  total: number,
  level: number,
  about: {
    readonly target: number;
    readonly limits: FunnelLimitKind;
    readonly dispersion: Overdispersion | null;
  },
): FunnelLimits | null {
  const { target, limits, dispersion } = about;
  if (!isRate(target)) return null;
  if (limits === "exact" || dispersion === null) {
    return proportionFunnelLimits(target, total, level);
  }
  const [standardError = 0] = proportionErrors(target, [total]);
  const { tauSquared } = dispersion;
  return widenedFunnelLimits({ target, standardError, by: { tauSquared }, most: 1 }, level);
}
