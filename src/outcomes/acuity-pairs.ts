import {
  defaultLowVisionTable,
  type LowVision,
  type LowVisionTable,
  logMarFromLowVision,
} from "../cases/acuity.ts";
import { columnNamed } from "../cases/table.ts";
import { writtenAcuity } from "../cases/values/written-acuity.ts";
import type { EyeRecord } from "./eye-record.ts";

/** The acuity of one eye before and after, logMAR. */
export interface AcuityPair {
  /** Row of the record. */
  readonly eye: number;
  readonly before: number;
  readonly after: number;
  /** After less before: below 0 the eye sees better. */
  readonly change: number;
  /** Where the acuity is no measured line but low vision, whose number is the table's. */
  readonly lowBefore: LowVision | null;
  readonly lowAfter: LowVision | null;
  /** Whole days from the repair to the later acuity; null where no day is recorded. */
  readonly afterDays: number | null;
}

export interface AcuityPairs {
  readonly pairs: readonly AcuityPair[];
  /** Eyes without a pair, each for one reason. */
  readonly without: readonly { readonly reason: string; readonly eyes: readonly number[] }[];
}

/**
 * Acuities before the primary repair and last recorded after it, paired by eye. Low vision is put
 * into numbers by the table asked for, from the text as written; all other acuities are as read.
 */
export function acuityPairs(
  record: EyeRecord,
  table: LowVisionTable = defaultLowVisionTable,
): AcuityPairs {
  const after = columnNamed(record.table, "last_acuity") ? "last_acuity" : "acuity_after";
  const pairs: AcuityPair[] = [];
  const without = new Map<string, number[]>();
  for (let eye = 0; eye < record.time.length; eye++) {
    const one = acuityOf(record, "acuity_before", { eye, table });
    const other = acuityOf(record, after, { eye, table });
    const reason = whyNoPair(one, other, table);
    if (reason === undefined) pairs.push(pairOf(record, eye, { one, other }));
    else without.set(reason, [...(without.get(reason) ?? []), eye]);
  }
  return { pairs, without: [...without].map(([reason, eyes]) => ({ reason, eyes })) };
}

interface Acuity {
  readonly logMar: number | null;
  readonly low: LowVision | null;
}

function acuityOf(
  record: EyeRecord,
  field: string,
  { eye, table }: { readonly eye: number; readonly table: LowVisionTable },
): Acuity {
  const written = columnNamed(record.table, `${field}_written`)?.values[eye];
  if (typeof written === "string") {
    const acuity = writtenAcuity(written);
    if (acuity.shape === "low") {
      const logMar = logMarFromLowVision(acuity.seen, table, acuity.distanceFeet);
      return { logMar, low: acuity.seen };
    }
  }
  const read = columnNamed(record.table, field)?.values[eye];
  return { logMar: typeof read === "number" ? read : null, low: null };
}

function whyNoPair(before: Acuity, after: Acuity, table: LowVisionTable): string | undefined {
  const silent = [before, after].find(({ logMar, low }) => logMar === null && low !== null);
  if (silent !== undefined) return `${silent.low} has no number in the table of ${table.name}`;
  if (before.logMar === null && after.logMar === null) return "neither acuity is recorded";
  if (before.logMar === null) return "the acuity before is not recorded";
  return after.logMar === null ? "no acuity after is recorded" : undefined;
}

function pairOf(
  record: EyeRecord,
  eye: number,
  { one, other }: { readonly one: Acuity; readonly other: Acuity },
): AcuityPair {
  const before = one.logMar ?? 0;
  const after = other.logMar ?? 0;
  return {
    eye,
    before,
    after,
    change: after - before,
    lowBefore: one.low,
    lowAfter: other.low,
    afterDays: daysAfter(record, eye),
  };
}

function daysAfter(record: EyeRecord, eye: number): number | null {
  const day = (name: string): number | null => {
    const value = columnNamed(record.table, name)?.values[eye];
    return typeof value === "number" ? value : null;
  };
  const measured = day("last_acuity_date") ?? day("acuity_after_date");
  const operated = day("operation_date");
  if (measured === null || operated === null || measured < operated) return null;
  return measured - operated;
}

/** 0.3 logMAR, three lines, 15 letters: what published series count as gained or lost. */
export const threeLines = 0.3;

/** Differences of logMAR are not exact in binary: 0.7 less 0.4 is a hair under 0.3. */
const hair = 1e-9;

export function hasGained({ change }: AcuityPair): boolean {
  return change <= -threeLines + hair;
}

export function hasLost({ change }: AcuityPair): boolean {
  return change >= threeLines - hair;
}
