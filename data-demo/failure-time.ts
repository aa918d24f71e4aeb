import type { Random } from "./random.ts";
import { failedVitrectomies, otherEarlyTiming, pvrShare, pvrTiming, type Timing } from "./truth.ts";

/** Whole days from the operation, at least 1, until a redetachment is seen. */
export function drawFailureDay(random: Random, kind: "PVR" | "other"): number {
  return dayAtShare(kind === "PVR" ? pvrTiming : otherTiming, random.uniform());
}

/** Share of a timing found by a day. */
function shareByDay(timing: Timing, day: number): number {
  let [lastDay, lastShare] = [0, 0];
  for (const [nextDay, nextShare] of timing) {
    if (day <= nextDay) {
      return lastShare + ((nextShare - lastShare) * (day - lastDay)) / (nextDay - lastDay);
    }
    [lastDay, lastShare] = [nextDay, nextShare];
  }
  return 1;
}

/**
 * Timing of the failures that are not PVR: what PVR leaves of the published timing, so that the
 * two together make it again; within the first two months its own shape.
 */
export const otherTiming: Timing = [
  ...otherEarlyTiming.map(([day, share]) => [day, share * otherShare(61)] as const),
  ...failedVitrectomies.slice(1).map(([day]) => [day, otherShare(day)] as const),
];

function otherShare(day: number): number {
  const all = shareByDay(failedVitrectomies, day);
  return (all - pvrShare * shareByDay(pvrTiming, day)) / (1 - pvrShare);
}

/** The first day by which more than the share is found. */
function dayAtShare(timing: Timing, share: number): number {
  let [lastDay, lastShare] = [0, 0];
  for (const [day, nextShare] of timing) {
    if (share < nextShare) {
      const within = (share - lastShare) / (nextShare - lastShare);
      return lastDay + Math.floor(within * (day - lastDay)) + 1;
    }
    [lastDay, lastShare] = [day, nextShare];
  }
  return lastDay;
}
