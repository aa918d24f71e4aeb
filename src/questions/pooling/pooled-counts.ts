import type { CountBounds } from "../../aggregates/count-bounds.ts";
import type { DepartmentPart } from "./departments.ts";

/** The failures among the eyes known, at the lowest and at the highest rate that counts allow. */
export interface RateCorners {
  readonly lowest: { readonly failed: number; readonly total: number };
  readonly highest: { readonly failed: number; readonly total: number };
}

/** The eyes of a part whose outcome at the window's end is known. */
export function knownBounds({
  bounds: { eyes, failed, held, unknown },
}: DepartmentPart): CountBounds {
  return {
    least: Math.max(failed.least + held.least, eyes.least - unknown.most),
    most: Math.min(failed.most + held.most, eyes.most - unknown.least),
  };
}

/**
 * The corners of the rate over several departments. A rate rises with every failure and falls with
 * every eye that held, so the lowest has each department's fewest failures among the most eyes that
 * go with them, and the highest the other way round. Both are the same where nothing is withheld.
 */
export function rateCorners(parts: readonly DepartmentPart[]): RateCorners {
  let [lowFailed, lowTotal, highFailed, highTotal] = [0, 0, 0, 0];
  for (const part of parts) {
    const { failed, held } = part.bounds;
    const known = knownBounds(part);
    lowFailed += failed.least;
    lowTotal += Math.max(failed.least, Math.min(known.most, failed.least + held.most));
    highFailed += failed.most;
    highTotal += Math.max(failed.most, known.least, failed.most + held.least);
  }
  return {
    lowest: { failed: lowFailed, total: lowTotal },
    highest: { failed: highFailed, total: highTotal },
  };
}

/** Undefined unless what is counted is the same at both corners. */
export function exactCounts({ lowest, highest }: RateCorners): RateCorners["lowest"] | undefined {
  const isSame = lowest.failed === highest.failed && lowest.total === highest.total;
  return isSame ? lowest : undefined;
}

export function isExact({ least, most }: CountBounds): boolean {
  return least === most;
}

export function sumOf(
  parts: readonly DepartmentPart[],
  name: "eyes" | "failed" | "held" | "unknown",
): CountBounds {
  return {
    least: parts.reduce((sum, { bounds }) => sum + bounds[name].least, 0),
    most: parts.reduce((sum, { bounds }) => sum + bounds[name].most, 0),
  };
}
