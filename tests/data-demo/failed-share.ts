import type { FollowedEye } from "./followed-eyes.ts";

/** Kaplan-Meier share failed by each of the days; events come before censorings of their day. */
export function failedShare(eyes: readonly FollowedEye[], days: readonly number[]): number[] {
  return days.map((day) => {
    let attached = 1;
    for (const eventDay of eventDays(eyes)) {
      if (eventDay > day) break;
      const atRisk = eyes.filter((eye) => eye.days >= eventDay).length;
      const events = eyes.filter((eye) => eye.failed && eye.days === eventDay).length;
      attached *= 1 - events / atRisk;
    }
    return 1 - attached;
  });
}

function eventDays(eyes: readonly FollowedEye[]): readonly number[] {
  const days = eyes.filter(({ failed }) => failed).map((eye) => eye.days);
  return [...new Set(days)].sort((a, b) => a - b);
}
