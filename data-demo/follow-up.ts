import type { Random } from "./random.ts";
import { deathShare, earlyVisitShare, lostAfterVisit } from "./truth.ts";

/** The visits that one eye keeps after an operation, unless it fails first. */
export interface FollowUp {
  /** Days since 1970-01-01, in order, at least one. */
  readonly visits: readonly number[];
  readonly death: number | null;
}

interface Planned {
  /** Days after the operation: the first, the day it is due and the last on which it is kept. */
  readonly days: readonly [first: number, due: number, last: number];
  /** Chance that the eye is not seen again after the visit. */
  readonly lostAfter: number;
}

const visitsAfterPrimary: readonly Planned[] = [
  { days: [5, 7, 14], lostAfter: lostAfterVisit.week },
  { days: [24, 30, 48], lostAfter: lostAfterVisit.month },
  { days: [80, 91, 125], lostAfter: lostAfterVisit.threeMonths },
  { days: [169, 183, 232], lostAfter: lostAfterVisit.sixMonths },
  { days: [351, 365, 425], lostAfter: 0.45 },
  { days: [530, 548, 610], lostAfter: 0.3 },
  { days: [709, 730, 800], lostAfter: 0.6 },
  { days: [1071, 1096, 1165], lostAfter: 1 },
];

/** Eyes that failed once are watched more closely. */
const visitsAfterReoperation: readonly Planned[] = [
  { days: [5, 7, 14], lostAfter: 0.01 },
  { days: [24, 30, 48], lostAfter: 0.02 },
  { days: [80, 91, 125], lostAfter: 0.04 },
  { days: [169, 183, 232], lostAfter: 0.08 },
  { days: [351, 365, 425], lostAfter: 0.3 },
  { days: [709, 730, 800], lostAfter: 1 },
];

/** Follow-up of an operation up to the day on which the file was drawn. */
export function drawFollowUp(
  random: Random,
  operation: { readonly day: number; readonly primary: boolean; readonly extract: number },
): FollowUp {
  const planned = operation.primary ? visitsAfterPrimary : visitsAfterReoperation;
  const visits: number[] = [];
  for (const { days, lostAfter } of planned) {
    const visit = operation.day + visitAfter(random, days);
    if (visit > operation.extract) break;
    visits.push(visit);
    if (random.chance(lostAfter)) break;
  }
  return endOf(random, visits, operation);
}

/** Most come on the day or soon after it, a few long after it, and fewer before it. */
function visitAfter(random: Random, [first, due, last]: Planned["days"]): number {
  if (random.chance(earlyVisitShare)) return random.whole(first, due - 1);
  return due + Math.floor((last - due + 1) * random.uniform() ** 2);
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
