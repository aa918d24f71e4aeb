import type { CauseTable, TimeTable } from "../../aggregates/aggregates-file.ts";
import { otherCauses } from "../failure-incidence/cause-of-eye.ts";
import type { DepartmentPart } from "./departments.ts";
import { type CountedBand, type CountedTimes, type Side, untoldTimes } from "./placed-follow-up.ts";

/** Any cause at all, with death alone competing. */
export const anyCause = "any cause";

/**
 * One department's failures of a cause, its other failures and its deaths competing, at the side
 * asked for. Where causes may not be told none or all of the failures are of it; a cause that stands
 * among others is under the threshold; and deaths too few to be told are at most that many.
 */
export function timesOfCause(part: DepartmentPart, cause: string, side: Side): CountedTimes {
  const { group, file } = part;
  const { times, causes } = group ?? {};
  const small = file.smallest_count - 1;
  if (times === undefined) return asCause(untoldTimes(part, side), cause, side);
  if (cause === anyCause) return { ...times, bands: bandsOfAny(times, { side, small }) };
  if (causes === undefined) {
    return asCause({ ...times, bands: bandsOfAny(times, { side, small }) }, cause, side);
  }
  return { reached: times.reached, bands: bandsOfCause(times, causes, { cause, side, small }) };
}

/** None of the failures are of the cause, or all. */
function asCause({ bands, reached }: CountedTimes, cause: string, side: Side): CountedTimes {
  if (cause === anyCause || side === "most") return { bands, reached };
  return {
    reached,
    bands: bands.map((band) => ({
      ...band,
      failed: 0,
      competing: band.competing + band.failed,
    })),
  };
}

interface Bounded {
  readonly side: Side;
  /** The most that is too few to be told. */
  readonly small: number;
}

/** Deaths compete; those among the ended may be up to the threshold in any band. */
function bandsOfAny({ bands, deaths }: TimeTable, { side, small }: Bounded): CountedBand[] {
  return bands.map(({ from, to, failed, ended, died }) => {
    const hidden = deaths === "among ended" && side === "fewest" ? Math.min(small, ended) : 0;
    return { from, to, failed, competing: died + hidden, ended: ended - hidden };
  });
}

function bandsOfCause(
  times: TimeTable,
  causes: CauseTable,
  { cause, side, small }: Bounded & { readonly cause: string },
): CountedBand[] {
  const all = bandsOfAny(times, { side, small });
  const own = causes.names.indexOf(cause);
  const others = cause === otherCauses ? -1 : causes.names.indexOf(otherCauses);
  const told = causes.bands.map(({ from, to, failed }) => {
    const among = side === "most" ? Math.min(small, failed[others] ?? 0) : 0;
    const ofCause = own === -1 ? among : (failed[own] ?? 0);
    return { from, to, ofCause, all: failed.reduce((sum, each) => sum + each, 0) };
  });
  const inside = (from: number, to: number) =>
    all.filter((band) => band.from >= from && band.to <= to);
  const sum = (bands: readonly CountedBand[], name: "competing" | "ended") =>
    bands.reduce((total, band) => total + band[name], 0);
  const covered = told.map(({ from, to, ofCause, all: failures }) => ({
    ...{ from, to, failed: ofCause },
    competing: sum(inside(from, to), "competing") + failures - ofCause,
    ended: sum(inside(from, to), "ended"),
  }));
  const isOutside = (band: CountedBand) =>
    !told.some(({ from, to }) => band.from >= from && band.to <= to);
  return [...covered, ...all.filter(isOutside)].sort((one, other) => one.from - other.from);
}

/** The causes that any department names, most failures first, those gathered last. */
export function causesNamed(parts: readonly DepartmentPart[]): string[] {
  const counts = new Map<string, number>();
  for (const { group } of parts) {
    group?.causes?.names.forEach((name, at) => {
      const failed =
        group.causes?.bands.reduce((sum, band) => sum + (band.failed[at] ?? 0), 0) ?? 0;
      counts.set(name, (counts.get(name) ?? 0) + failed);
    });
  }
  const named = [...counts].filter(([name]) => name !== otherCauses);
  return named.sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1)).map(([name]) => name);
}
