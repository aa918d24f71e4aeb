import type { Random } from "./random.ts";
import { deathShare, lostAfterVisit } from "./truth.ts";

/** The visits that one eye keeps after an operation, unless it fails first. */
export interface FollowUp {
  /** Days since 1970-01-01, in order, at least one. */
  readonly visits: readonly number[];
  readonly death: number | null;
}

type Planned = readonly [least: number, most: number, lostAfter: number];

/** Days after a primary repair, and the chance that the eye is not seen again after the visit. */
const visitsAfterPrimary: readonly Planned[] = [
  [5, 10, lostAfterVisit.week],
  [25, 40, lostAfterVisit.month],
  [80, 105, lostAfterVisit.threeMonths],
  [165, 205, lostAfterVisit.sixMonths],
  [345, 395, 0.45],
  [530, 580, 0.3],
  [700, 760, 0.6],
  [1060, 1125, 1],
];

/** Eyes that failed once are watched more closely. */
const visitsAfterReoperation: readonly Planned[] = [
  [5, 10, 0.01],
  [25, 40, 0.02],
  [80, 105, 0.04],
  [165, 205, 0.08],
  [345, 395, 0.3],
  [700, 760, 1],
];

/** Follow-up of an operation up to the day on which the file was drawn. */
export function drawFollowUp(
  random: Random,
  operation: { readonly day: number; readonly primary: boolean; readonly extract: number },
): FollowUp {
  const planned = operation.primary ? visitsAfterPrimary : visitsAfterReoperation;
  const visits: number[] = [];
  for (const [least, most, lostAfter] of planned) {
    const visit = operation.day + random.whole(least, most);
    if (visit > operation.extract) break;
    visits.push(visit);
    if (random.chance(lostAfter)) break;
  }
  return endOf(random, visits, operation);
}

function endOf(
  random: Random,
  visits: readonly number[],
  {
    day,
    extract,
    primary,
  }: { readonly day: number; readonly extract: number; readonly primary: boolean },
): FollowUp {
  const seen = visits.length === 0 ? [Math.min(extract, day + 1)] : visits;
  if (!primary || !random.chance(deathShare)) return { visits: seen, death: null };
  const last = random.whole(0, seen.length - 1);
  const death = seen[last]! + random.whole(8, 150);
  if (death > extract) return { visits: seen, death: null };
  return { visits: seen.slice(0, last + 1), death };
}
