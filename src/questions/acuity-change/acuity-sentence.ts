import { eyeCount } from "../../outcomes/eye-record.ts";
import { type Quartiles, quartiles } from "../../outcomes/quartiles.ts";
import type { Interval } from "../../statistics/interval.ts";
import type { Sentence } from "../answer.ts";
import { isComparingPeople } from "../answering/cautions.ts";
import { patientClusters } from "../answering/patient-clusters.ts";
import {
  capitalised,
  count,
  counted,
  percent,
  percentRange,
  pValue,
} from "../answering/wording.ts";
import {
  type AcuityParts,
  changeText,
  lettersText,
  logMarText,
  lowVisionCounts,
} from "./acuity-parts.ts";

/** Acuity before and after for the minutes: medians, means with their table, gained and lost. */
export function acuitySentence(parts: AcuityParts): Sentence {
  const eyes = eyeCount(parts.record);
  const number = parts.total.pairs.length;
  if (eyes === 0) return ["No eyes to look at."];
  if (number === 0) return [`None of ${counted(eyes, "eye")} has its acuity before and after.`];
  const have = number === 1 ? "has its" : "have their";
  return [
    `Of ${counted(eyes, "eye")}, `,
    { text: count(number), pick: "all:pairs" },
    ` ${have} acuity before and after. `,
    ...mediansClause(parts),
    ...shiftClause(parts),
    ...gainsClause(parts),
    ...whenClause(parts),
    ...spread(parts),
  ];
}

/** "Of 433 eyes, 250 gained 0.3 logMAR or more (57.7%, 95% interval 53.0 to 62.3%), 40 lost it." */
export function acuityBrief({ total }: AcuityParts): Sentence {
  const { gained, lost, pairs, gainedInterval } = total;
  if (gainedInterval === null) return [];
  const number = (some: readonly unknown[]): string =>
    some.length === 0 ? "none" : count(some.length);
  return [
    `Of ${counted(pairs.length, "eye")}, ${number(gained)} gained 0.3 logMAR or more ` +
      `(${percent(gained.length / pairs.length)}, 95% interval ${percentRange(gainedInterval)}) ` +
      `and ${number(lost)} lost as much.`,
  ];
}

function mediansClause({ total, table }: AcuityParts): string[] {
  const { before, after, meanBefore, meanAfter } = total;
  if (before === null || after === null) return [];
  const mean = `${logMarText(meanBefore)} before and ${logMarText(meanAfter)} after`;
  if (total.pairs.length === 1) {
    return [
      `It was ${logMarText(before.median)} logMAR before (${lettersText(before.median)}) and ` +
        `${logMarText(after.median)} after (${lettersText(after.median)})${lowClause(total, table)}. `,
    ];
  }
  return [
    `The median was ${quartileText(before)} before and ${quartileText(after)} after; the mean was ` +
      `${mean}${lowClause(total, table)}. `,
  ];
}

/** The shift of logMAR, where there are eyes enough for limits; a fall of logMAR is a gain. */
function shiftClause({ record, total }: AcuityParts): string[] {
  const { signedRank, pairs } = total;
  if (signedRank === null || !Number.isFinite(signedRank.shift.lower)) return [];
  const { estimate, lower, upper } = signedRank.shift;
  const eyes = pairs.map(({ eye }) => eye);
  const alone =
    patientClusters(record, eyes) === undefined ? "" : ", two eyes of a patient taken one by one";
  return [
    `The typical change was ${changeText(estimate)} logMAR (Hodges–Lehmann, 95% interval ` +
      `${changeText(lower)} to ${changeText(upper)}; signed-rank test, ` +
      `${pValue(signedRank.pValue)}${alone}). `,
  ];
}

/** "0.60 logMAR (quartiles 0.18 to 1.30; 55 letters)". */
function quartileText({ lower, median, upper }: Quartiles): string {
  const range = `quartiles ${logMarText(lower)} to ${logMarText(upper)}`;
  return `${logMarText(median)} logMAR (${range}; ${lettersText(median)})`;
}

/** The table stands beside every mean, with how many eyes it bears on. */
function lowClause({ pairs }: AcuityParts["total"], table: AcuityParts["table"]): string {
  const { before, after } = lowVisionCounts(pairs);
  const bears =
    before + after === 0
      ? "no eye had low vision"
      : `low vision before in ${count(before)} and after in ${count(after)}`;
  return ` (table of ${table.name}: ${bears})`;
}

function gainsClause({ total }: AcuityParts): Sentence {
  const { gained, lost, pairs, gainedInterval, lostInterval } = total;
  const same = pairs.length - gained.length - lost.length;
  const share = (number: number, interval: Interval | null): string =>
    interval === null
      ? ""
      : ` (${percent(number / pairs.length)}, 95% ${interval.method} interval ${percentRange(interval)})`;
  const part = (number: number, words: string, pick: string) => ({
    text: `${number === 0 ? "none" : count(number)} ${words}`,
    ...(number === 0 ? {} : { pick }),
  });
  const first = part(gained.length, "gained 0.3 logMAR (15 letters) or more", "all:gained");
  return [
    { ...first, text: capitalised(first.text) },
    share(gained.length, gainedInterval),
    ", ",
    part(lost.length, "lost as much", "all:lost"),
    share(lost.length, lostInterval),
    `, ${same === 0 ? "none" : count(same)} changed by less.`,
  ];
}

function whenClause({ total }: AcuityParts): string[] {
  const days = total.pairs.flatMap(({ afterDays }) => afterDays ?? []);
  const when = quartiles(days);
  if (when === null) return [" When the later acuity was measured is not recorded."];
  if (days.length === 1) {
    return [` The later acuity was measured ${counted(days[0] ?? 0, "day")} after the repair.`];
  }
  const known = days.length === total.pairs.length ? "" : ` where known (${count(days.length)})`;
  const whole = (value: number): string => count(Math.round(value));
  return [
    ` The later acuity was measured a median of ${whole(when.median)} days after the repair` +
      `${known} (quartiles ${whole(when.lower)} to ${whole(when.upper)}).`,
  ];
}

/** Groups of ten pairs or more, never people: medians before and after, up to five. */
function spread({ grouping, groups }: AcuityParts): string[] {
  if (grouping.label === undefined || isComparingPeople(grouping.by)) return [];
  const told = groups
    .filter(({ pairs }) => pairs.length >= 10)
    .slice(0, 5)
    .map(
      ({ label, pairs, before, after }) =>
        `${label} ${logMarText(before?.median ?? null)} to ${logMarText(after?.median ?? null)} ` +
        `(${counted(pairs.length, "eye")})`,
    );
  if (told.length === 0) return [];
  return [` Medians by ${grouping.label}: ${told.join("; ")}.`];
}
