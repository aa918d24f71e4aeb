import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { endedInDeath } from "../../questions/answering/deaths.ts";
import type { SmallCounts } from "./small-counts.ts";

/** The eyes of a group whose follow-up ended from one day to another, both included, by how. */
export interface BandOfEyes {
  readonly from: number;
  readonly to: number;
  readonly failed: readonly number[];
  readonly ended: readonly number[];
  readonly died: readonly number[];
}

export const endings = ["failed", "ended", "died"] as const;

/**
 * Last days of the finest bands that are not single days: day 0 by itself (a retina that never lay
 * flat), then months, half quarters and years, so that curves can be read where they usually are.
 */
const ends = [0, 30, 61, 91, 122, 152, 183, 274, 365, 548, 730, 1096, 1461, 1826, 3653, 36_525];

/** The bands between fixed days, whatever happened in them, up to the window's end. */
export function fixedBands(record: EyeRecord, eyes: readonly number[], days: number): BandOfEyes[] {
  const within = [...ends.filter((end) => end < days), days];
  return within.map((to, at) =>
    bandOf(record, eyes, { from: (within[at - 1] ?? -1) + 1, to, days }),
  );
}

/** One band for each day on which a follow-up ended before the window's end. */
export function dayBands(record: EyeRecord, eyes: readonly number[], days: number): BandOfEyes[] {
  const ending = eyes.filter((eye) => !hasReached(record, eye, days));
  const byDay = new Map<number, number[]>();
  for (const eye of ending) {
    const day = record.time[eye] ?? 0;
    byDay.set(day, [...(byDay.get(day) ?? []), eye]);
  }
  return [...byDay]
    .sort(([one], [other]) => one - other)
    .map(([day, of]) => bandOf(record, of, { from: day, to: day, days }));
}

/** Followed to the window's end without a failure. */
export function hasReached(record: EyeRecord, eye: number, days: number): boolean {
  return record.event[eye] === 0 && (record.time[eye] ?? 0) >= days;
}

function bandOf(
  record: EyeRecord,
  eyes: readonly number[],
  { from, to, days }: { readonly from: number; readonly to: number; readonly days: number },
): BandOfEyes {
  const inside = eyes.filter((eye) => {
    const time = record.time[eye] ?? 0;
    return time >= from && time <= to && !hasReached(record, eye, days);
  });
  const notFailed = inside.filter((eye) => record.event[eye] === 0);
  return {
    ...{ from, to },
    failed: inside.filter((eye) => record.event[eye] === 1),
    ended: notFailed.filter((eye) => !endedInDeath(record, eye)),
    died: notFailed.filter((eye) => endedInDeath(record, eye)),
  };
}

/**
 * Neighbours put together until `isFit` holds of every band: from the first day on, and what is
 * left over at the end joins the band before.
 */
export function merged<Band extends BandOfEyes>(
  bands: readonly Band[],
  isFit: (band: BandOfEyes) => boolean,
): BandOfEyes[] {
  const done: BandOfEyes[] = [];
  let open: BandOfEyes | undefined;
  for (const band of bands) {
    open = open === undefined ? band : together(open, band);
    if (!isFit(open)) continue;
    done.push(open);
    open = undefined;
  }
  while (open !== undefined && done.length > 0 && !isFit(open)) {
    open = together(done.pop() as BandOfEyes, open);
  }
  return open === undefined ? done : [...done, open];
}

function together(one: BandOfEyes, other: BandOfEyes): BandOfEyes {
  return {
    ...{ from: one.from, to: other.to },
    failed: [...one.failed, ...other.failed],
    ended: [...one.ended, ...other.ended],
    died: [...one.died, ...other.died],
  };
}

/** Whether each kind of ending is in a band not at all or in as many patients as may be told. */
export function isLarge({ isShowable }: SmallCounts): (band: BandOfEyes) => boolean {
  return (band) => endings.every((ending) => isShowable(band[ending]));
}
