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
import { type GroupRate, type RateOptions, rateOfGroup } from "../failure-rate/rate-of-group.ts";

/** What the sentence, the table, the chart and the figures are all made from. */
export interface ClockParts {
  readonly record: EyeRecord;
  readonly breaks: BreaksByEye;
  readonly inferior: InferiorHours;
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

export function clockParts(
  record: EyeRecord,
  breaks: BreaksByEye,
  inferior: InferiorHours,
): ClockParts {
  const row = (label: string, test: (eye: EyeBreaks) => boolean): ClockRow =>
    clockRow(record, label, breaks.eyes.filter(test));
  const isInferior = ({ hours }: EyeBreaks): boolean =>
    hours.some((hour) => isBetweenHours(hour, inferior));
  return {
    record,
    breaks,
    inferior,
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
