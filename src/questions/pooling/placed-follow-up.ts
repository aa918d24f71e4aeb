import type { TimeTable } from "../../aggregates/aggregates-file.ts";
import type { DepartmentPart } from "./departments.ts";

/** One band of a department: failures of the cause that is looked at, and whatever else ended there. */
export interface CountedBand {
  readonly from: number;
  readonly to: number;
  readonly failed: number;
  /** Failures of another cause, and deaths where they compete. */
  readonly competing: number;
  readonly ended: number;
}

export interface CountedTimes {
  readonly bands: readonly CountedBand[];
  readonly reached: number;
}

/** Follow-up of eyes as the statistics take it: 0 ended, 1 failed, 2 competing. */
export interface PlacedEyes {
  readonly time: readonly number[];
  readonly cause: readonly number[];
}

export type Side = "fewest" | "most";

/**
 * Eyes whose estimate on day `at` is the lowest or the highest that the bands allow, of the share
 * failed (Kaplan–Meier) or failed of a cause (Aalen–Johansen).
 *
 * A failure weighs one over the number at risk. So it weighs least where those whose follow-up ended
 * are still there, and most where they have gone: the estimate is lowest with failures on the first
 * day of their band and ends on the last, highest the other way round. Of a band that `at` lies in,
 * the failures come after it or up to it. Competing events take from what comes after them: they
 * stand on the other side of the ends. Within a day failures come before ends. A band of one day
 * leaves no room, so that both are the same where departments give days.
 *
 * With competing events all departments must have the same bands (`inCommonBands`), so that every
 * end lies between the failures and the competing events that it should.
 */
export function placedEyes(
  departments: readonly CountedTimes[],
  { at, side, days }: { readonly at: number; readonly side: Side; readonly days: number },
): PlacedEyes {
  const time: number[] = [];
  const cause: number[] = [];
  const add = (count: number, day: number, of: number) => {
    for (let eye = 0; eye < count; eye++) {
      time.push(day);
      cause.push(of);
    }
  };
  for (const { bands, reached } of departments) {
    for (const band of bands) {
      const on = placesIn(band, at, side);
      add(band.failed, on.failed, 1);
      add(band.competing, on.competing, 2);
      add(band.ended, on.ended, 0);
    }
    add(reached, days, 0);
  }
  return { time, cause };
}

function placesIn({ from, to, competing }: CountedBand, at: number, side: Side) {
  const isAcross = from <= at && at < to;
  if (side === "most") return { failed: isAcross ? at : to, ended: from, competing: from };
  if (isAcross) return { failed: to, ended: to, competing: from };
  return { failed: from, ended: competing > 0 ? from : to, competing: to };
}

/**
 * The times of a part where its table may not be told: all in one band, with as many failures as its
 * counts allow on that side. An eye that held was followed to the window's end.
 */
export function untoldTimes({ bounds, file }: DepartmentPart, side: Side): CountedTimes {
  const { days } = file.definition;
  const { eyes, failed, held } = bounds;
  const band = { from: 0, to: days, competing: 0 };
  if (side === "fewest") {
    const reached = Math.max(0, eyes.most - failed.least);
    return { bands: [{ ...band, failed: failed.least, ended: 0 }], reached };
  }
  const reached = held.least;
  const ended = Math.max(0, eyes.least - failed.most - reached);
  return { bands: [{ ...band, failed: failed.most, ended }], reached };
}

/** All failures alike; a death ends follow-up. */
export function timesOfFailures({ bands, reached }: TimeTable): CountedTimes {
  return {
    bands: bands.map(({ from, to, failed, ended, died }) => ({
      ...{ from, to, failed, competing: 0 },
      ended: ended + died,
    })),
    reached,
  };
}

/** Every department in bands that are all of theirs: neighbours together where one has no end. */
export function inCommonBands(departments: readonly CountedTimes[]): CountedTimes[] {
  const all = departments
    .flatMap(({ bands }) => bands)
    .sort((a, b) => a.from - b.from || b.to - a.to);
  const common: { from: number; to: number }[] = [];
  for (const { from, to } of all) {
    const last = common.at(-1);
    if (last === undefined || from > last.to) common.push({ from, to });
    else last.to = Math.max(last.to, to);
  }
  return departments.map(({ bands, reached }) => ({
    reached,
    bands: common.map(({ from, to }) => {
      const inside = bands.filter((band) => band.from >= from && band.to <= to);
      const sum = (name: "failed" | "competing" | "ended") =>
        inside.reduce((total, band) => total + band[name], 0);
      return { from, to, failed: sum("failed"), competing: sum("competing"), ended: sum("ended") };
    }),
  }));
}

/** Days that no band of any department lies across: there the bounds are as close as they get. */
export function readableDays(departments: readonly CountedTimes[], days: number): number[] {
  const bands = departments.flatMap((each) => each.bands);
  const ends = [...new Set([...bands.map(({ to }) => to), days])].sort((a, b) => a - b);
  return ends.filter((end) => !bands.some(({ from, to }) => from <= end && end < to));
}
