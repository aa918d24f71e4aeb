import type { LowVisionTable } from "../../cases/acuity.ts";
import { lettersFromLogMar } from "../../cases/acuity.ts";
import {
  type AcuityPair,
  type AcuityPairs,
  hasGained,
  hasLost,
} from "../../outcomes/acuity-pairs.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { type Quartiles, quartiles } from "../../outcomes/quartiles.ts";
import type { Interval } from "../../statistics/interval.ts";
import { type SignedRankTest, signedRankTest } from "../../statistics/signed-rank-test.ts";
import type { Group, Grouping } from "../answering/grouping.ts";
import { shareInterval } from "../answering/share-interval.ts";

/** What the sentence, the table, the chart and the figures are all made from. */
export interface AcuityParts {
  readonly record: EyeRecord;
  readonly grouping: Grouping;
  readonly table: LowVisionTable;
  readonly paired: AcuityPairs;
  readonly total: AcuityGroup;
  readonly groups: readonly AcuityGroup[];
}

/** The pairs of one group, summed up. logMAR throughout; null: no pair. */
export interface AcuityGroup {
  readonly label: string;
  /** All eyes of the group, paired or not. */
  readonly eyes: readonly number[];
  readonly pairs: readonly AcuityPair[];
  readonly before: Quartiles | null;
  readonly after: Quartiles | null;
  readonly change: Quartiles | null;
  /** Wilcoxon's test of the changes, eyes taken one by one, with the Hodges–Lehmann shift. */
  readonly signedRank: SignedRankTest | null;
  readonly meanBefore: number | null;
  readonly meanAfter: number | null;
  readonly gained: readonly AcuityPair[];
  readonly lost: readonly AcuityPair[];
  readonly gainedInterval: Interval | null;
  readonly lostInterval: Interval | null;
}

export function acuityGroup(
  record: EyeRecord,
  { label, eyes }: Group,
  { pairs: all }: AcuityPairs,
): AcuityGroup {
  const members = new Set(eyes);
  const pairs = all.filter(({ eye }) => members.has(eye));
  const before = pairs.map((pair) => pair.before);
  const after = pairs.map((pair) => pair.after);
  const changes = pairs.map(({ change }) => change);
  const gained = pairs.filter(hasGained);
  const lost = pairs.filter(hasLost);
  const interval = (counted: readonly AcuityPair[]): Interval | null =>
    shareInterval(record, eyesOf(counted), eyesOf(pairs));
  return {
    label,
    eyes,
    pairs,
    before: quartiles(before),
    after: quartiles(after),
    change: quartiles(changes),
    signedRank: signedRankTest(changes),
    meanBefore: mean(before),
    meanAfter: mean(after),
    gained,
    lost,
    gainedInterval: interval(gained),
    lostInterval: interval(lost),
  };
}

function eyesOf(pairs: readonly AcuityPair[]): number[] {
  return pairs.map(({ eye }) => eye);
}

function mean(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** "0.48", "−0.08" with a true minus sign, never "−0.00". */
export function logMarText(value: number | null): string {
  if (value === null) return "–";
  const text = Math.abs(value).toFixed(2);
  return value < 0 && text !== "0.00" ? `−${text}` : text;
}

/** "+0.30", "−0.40", "0.00". */
export function changeText(value: number): string {
  const text = logMarText(value);
  return text.startsWith("−") || text === "0.00" ? text : `+${text}`;
}

/** "76 letters", "1 letter", "off the letter chart". */
export function lettersText(logMar: number): string {
  const letters = lettersFromLogMar(logMar);
  if (letters === 0) return "off the letter chart";
  const whole = Math.round(letters);
  return whole === 1 ? "1 letter" : `${whole} letters`;
}

/** Pairs with low vision before, and after. */
export function lowVisionCounts(pairs: readonly AcuityPair[]): {
  readonly before: number;
  readonly after: number;
} {
  return {
    before: pairs.filter(({ lowBefore }) => lowBefore !== null).length,
    after: pairs.filter(({ lowAfter }) => lowAfter !== null).length,
  };
}

/** The kinds of low vision met, with the number that the table gave each. */
export function seenLow(
  pairs: readonly AcuityPair[],
): readonly { readonly label: string; readonly logMar: number }[] {
  const seen = new Map<string, number>();
  for (const { before, after, lowBefore, lowAfter } of pairs) {
    if (lowBefore !== null) seen.set(lowBefore, Math.max(before, seen.get(lowBefore) ?? 0));
    if (lowAfter !== null) seen.set(lowAfter, Math.max(after, seen.get(lowAfter) ?? 0));
  }
  return [...seen].map(([label, logMar]) => ({ label, logMar }));
}
