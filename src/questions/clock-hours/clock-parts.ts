import {
  type BreaksByEye,
  type EyeBreaks,
  type InferiorHours,
  isBetweenHours,
  type Quadrant,
  quadrantOf,
  quadrants,
  type Side,
} from "../../outcomes/clock-hours.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { Grouping } from "../answering/grouping.ts";
import { type GroupRate, type RateOptions, rateOfGroup } from "../failure-rate/rate-of-group.ts";

/** What the sentence, the table, the chart and the figures are all made from. */
export interface ClockParts {
  readonly record: EyeRecord;
  readonly breaks: BreaksByEye;
  readonly inferior: InferiorHours;
  readonly grouping: Grouping;
  /** All eyes together. */
  readonly total: ClockGroup;
  /** The groups of `by`; none where the eyes are not split. */
  readonly groups: readonly ClockGroup[];
}

/** Breaks around the clock in some eyes. */
export interface ClockGroup {
  readonly label: string;
  /** Stands before the keys of its counts: "", "g0:". */
  readonly key: string;
  /** Those with the place of a break recorded. */
  readonly eyes: readonly EyeBreaks[];
  readonly byQuadrant: readonly (ClockRow & { readonly quadrant: Quadrant })[];
  readonly withInferior: ClockRow;
  readonly withoutInferior: ClockRow;
  readonly byHour: readonly (ClockRow & { readonly hour: number })[];
}

/** Eyes with a break in some place, and how often they failed. */
export interface ClockRow {
  readonly label: string;
  readonly eyes: readonly EyeBreaks[];
  readonly rate: GroupRate;
}

/** Round the clock from the top. */
const hoursRound: readonly number[] = [12, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];

type Asked = Pick<ClockParts, "record" | "breaks" | "inferior" | "grouping">;

export function clockParts(asked: Asked): ClockParts {
  const { breaks, grouping } = asked;
  const split = grouping.label === undefined ? [] : grouping.groups;
  return {
    ...asked,
    total: clockGroup(asked, { label: "all eyes", key: "", eyes: breaks.eyes }),
    groups: split.map(({ label, eyes }, position) => {
      const own = new Set(eyes);
      const placed = breaks.eyes.filter(({ eye }) => own.has(eye));
      return clockGroup(asked, { label, key: `g${position}:`, eyes: placed });
    }),
  };
}

function clockGroup(
  { record, inferior }: Asked,
  group: Pick<ClockGroup, "label" | "key" | "eyes">,
): ClockGroup {
  const row = (label: string, test: (eye: EyeBreaks) => boolean): ClockRow =>
    clockRow(record, label, group.eyes.filter(test));
  const isInferior = ({ hours }: EyeBreaks): boolean =>
    hours.some((hour) => isBetweenHours(hour, inferior));
  return {
    ...group,
    byQuadrant: quadrants.map((quadrant) => ({
      quadrant,
      ...row(quadrant, ({ hours, side }) =>
        hours.some((hour) => quadrantOf(hour, side) === quadrant),
      ),
    })),
    withInferior: row(`inferior break (${inferior.name} o'clock)`, isInferior),
    withoutInferior: row("no inferior break", (eye) => !isInferior(eye)),
    byHour: hoursRound.map((hour) => ({
      hour,
      ...row(`${hour} o'clock`, ({ hours }) => hours.includes(hour)),
    })),
  };
}

function clockRow(record: EyeRecord, label: string, eyes: readonly EyeBreaks[]): ClockRow {
  const { window } = record;
  const options: RateOptions = {
    tolerance: 0,
    method: "Wilson",
    ...(window === undefined ? {} : { window }),
  };
  const group = { label, eyes: eyes.map(({ eye }) => eye) };
  return { label, eyes, rate: rateOfGroup(record, group, options) };
}

/** The eyes of one side, and those of them that failed. */
export function ofSide(
  { eyes, rate }: ClockRow,
  side: Side,
): { readonly eyes: readonly number[]; readonly failed: readonly number[] } {
  const own = eyes.filter((each) => each.side === side).map(({ eye }) => eye);
  const failed = new Set(rate.failedEyes);
  return { eyes: own, failed: own.filter((eye) => failed.has(eye)) };
}
